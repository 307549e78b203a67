import { formatSteps } from './step-text.ts';
import { fail, type Result } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import { problemOf } from '../scoring/index.ts';
import { programSpins } from './program-spins.ts';
import { expectedOver } from './step-chances.ts';
import { planOf, type CalledLevel } from './step-assess.ts';
import { stepLevel, type StepLevel } from './step-level.ts';
import { improveSteps, type Edit, type SearchConstraints } from './step-search.ts';
import { moveWeights } from './step-weakest.ts';
import { spinSources, stepSources, type RuleSource } from './sources.ts';
import { readSteps, type StepsForm } from './step-form.ts';
import { readSpin, readSpins, type SpinForm, type SpinPlan, type SpinsForm } from './spin-form.ts';
import { assignFeatures, type Assignment } from './spin-assignment.ts';
import { soundnessOf } from './spin-soundness.ts';
import { spinLevel, type SpinLevel } from './spin-level.ts';
import type { Spin } from './spin.ts';

/** Everything that can be asked for its level. */
export type PlanForm = StepsForm | SpinForm | SpinsForm;

/** Reads a step sequence, a spin, or the spins of a program; without `kind` the fields decide. */
export function readPlan(value: unknown): Result<PlanForm> {
  const kind = kindOf(value);
  const given = typeof value === 'object' && value !== null ? { ...value, kind } : value;
  if (kind === 'steps') return readSteps(given);
  if (kind === 'spin') return readSpin(given);
  if (kind === 'spins') return readSpins(given);
  return fail(problemOf(['kind'], value, 'steps, spin or spins', 'plan.kind'));
}

function kindOf(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return null;
  if ('kind' in value && value.kind !== null) return value.kind;
  if ('moves' in value) return 'steps';
  if ('spins' in value) return 'spins';
  return 'parts' in value ? 'spin' : null;
}

export interface StepPlanAnswer extends StepLevel {
  readonly kind: 'steps';
  readonly id: string | null;
  readonly rulebook: string;
  /** The rules that the answer rests on, with source and mark. */
  readonly sources: readonly RuleSource[];
  /** The line as read, in the notation. */
  readonly line: string;
  /** Base value that the chances lead one to expect, in points; null where a value is not known. */
  readonly expected: number | null;
  /** Moves by how much hangs on their credit, heaviest first; points between sure and never. */
  readonly weakest: readonly { readonly index: number; readonly points: number; readonly gain: number }[] | null;
  /** The best change of one move, where it helps; null where none does, or where nobody asked. */
  readonly advice: {
    readonly edits: readonly Edit[];
    readonly level: CalledLevel;
    readonly spare: number | null;
  } | null;
}

export interface SpinPlanAnswer extends SpinLevel {
  readonly kind: 'spin';
  readonly id: string | null;
  readonly rulebook: string;
  /** The rules that the answer rests on, with source and mark. */
  readonly sources: readonly RuleSource[];
  readonly expected: number | null;
}

export interface SpinsPlanAnswer {
  readonly kind: 'spins';
  readonly id: string | null;
  readonly rulebook: string;
  /** The rules that the answer rests on, with source and mark. */
  readonly sources: readonly RuleSource[];
  readonly spins: readonly (SpinLevel & { readonly expected: number | null })[];
  /** What to leave out so that a later spin can use it; null where nothing helps, or nobody asked. */
  readonly advice: { readonly leaveOut: Assignment['left']; readonly expected: number; readonly before: number } | null;
  readonly warnings: readonly string[];
}

export type PlanAnswer = StepPlanAnswer | SpinPlanAnswer | SpinsPlanAnswer;

/**
 * Answers a plan by the rules chosen for it; points come from the rulebook of the values. `constraints`
 * ask for advice on a step sequence, which is a search; null leaves it out.
 */
export function answerPlan(
  form: PlanForm,
  rules: ChosenRules,
  constraints: SearchConstraints | null = null,
): PlanAnswer {
  if (form.kind === 'steps') return answerSteps(form, rules, constraints);
  const spinRules = rules.levels.spins(rules.category);
  const inSegment = (spin: SpinPlan): Spin => ({ ...spin, segment: rules.segment });
  const common = { id: form.id, rulebook: rules.levels.id, sources: spinSources(rules) };
  if (form.kind === 'spins') {
    const planned = form.spins.map(inSegment);
    const spins = programSpins(planned, spinRules).map((spin) => ({
      ...spin,
      expected: expectedPoints(spin.chances, spinWorth(spin.code, rules)),
    }));
    const advice = constraints === null ? null : leaveOutAdvice(planned, rules);
    return { ...common, kind: 'spins', spins, advice, warnings: [...form.warnings, ...rules.warnings] };
  }
  const spin = spinLevel(inSegment(form.spin), spinRules);
  const expected = expectedPoints(spin.chances, spinWorth(spin.code, rules));
  return {
    ...common,
    kind: 'spin',
    ...spin,
    expected,
    warnings: [...form.warnings, ...spin.warnings, ...rules.warnings],
  };
}

function answerSteps(form: StepsForm, rules: ChosenRules, constraints: SearchConstraints | null): StepPlanAnswer {
  const stepRules = rules.levels.steps(rules.category);
  const answer = stepLevel(form.moves, stepRules);
  const worth = stepWorth(rules);
  const weights = moveWeights(planOf(form.moves, stepRules), worth);
  return {
    id: form.id,
    rulebook: rules.levels.id,
    sources: stepSources(rules),
    kind: 'steps',
    ...answer,
    line: formatSteps(form.moves),
    expected: expectedPoints(answer.chances, worth),
    weakest: weights?.map(({ index, slope, gain }) => ({ index, points: slope / 100, gain: gain / 100 })) ?? null,
    advice: constraints === null ? null : adviceFor(form, answer, rules, constraints),
    warnings: [...form.warnings, ...answer.warnings, ...rules.warnings],
  };
}

/** The best change of one move, only where it raises the level or the spare. */
function adviceFor(
  form: StepsForm,
  answer: StepLevel,
  rules: ChosenRules,
  constraints: SearchConstraints,
): StepPlanAnswer['advice'] {
  if (answer.spare === null || answer.spare > 0) return null;
  const { found } = improveSteps(form.moves, rules.levels.steps(rules.category), stepWorth(rules), constraints, {
    top: 1,
  });
  const [best] = found;
  if (best === undefined || best.edits.length === 0) return null;
  const helps = best.level !== answer.level || best.spare === null || best.spare > answer.spare;
  return helps ? { edits: best.edits, level: best.level, spare: best.spare } : null;
}

/** Base value of a step sequence by level, in hundredths; without level nothing. */
const stepWorth =
  (rules: ChosenRules) =>
  (level: CalledLevel): number | null =>
    level === 'none' ? 0 : (rules.values.row(`StSq${level}`)?.base ?? null);

/** Base value of a spin by level, in hundredths; its V, if it has one, stays whatever the level. */
function spinWorth(code: string, rules: ChosenRules): (level: CalledLevel) => number | null {
  const v = code.endsWith('V') ? 'V' : '';
  const head = code.replace(/(B|[1-4])?V?$/, '');
  return (level) => (level === 'none' ? 0 : (rules.values.row(`${head}${level}${v}`)?.base ?? null));
}

/** What to leave out of which spin, where that raises the expected value of all spins together. */
function leaveOutAdvice(spins: readonly Spin[], rules: ChosenRules): SpinsPlanAnswer['advice'] {
  const spinRules = rules.levels.spins(rules.category);
  const worth = (spin: Spin, level: CalledLevel): number | null => {
    const { value, code } = soundnessOf(spin, spinRules);
    return spinWorth(`${code}${value === 'V' ? 'V' : ''}`, rules)(level);
  };
  const best = assignFeatures(spins, spinRules, worth);
  if (best === null || best.left.length === 0) return null;
  return { leaveOut: best.left, expected: best.expected / 100, before: best.before / 100 };
}

function expectedPoints(chances: StepLevel['chances'], worth: (level: CalledLevel) => number | null): number | null {
  const hundredths = expectedOver(chances, worth);
  return hundredths === null ? null : hundredths / 100;
}
