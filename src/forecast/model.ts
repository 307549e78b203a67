import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import type { ChosenRules } from '../rulebook/index.ts';
import type { Layout, Protocol } from '../scoring/index.ts';
import { bonusOf, plannedElements, statedOutcomes } from './exact/planned-outcomes.ts';
import type { ProgramElement, ProgramModel, ScoreOf } from './exact/program.ts';
import { componentParts } from './learn/component-model.ts';
import { learnDeductions, learnElement, ownRecord } from './learn/learn.ts';
import { practiceRows, practiceWords, type LoggedRunThrough } from './learn/practice.ts';
import type { Priors } from './learn/priors.ts';
import { earlierProgram, type EarlierProgram } from './learn/skated.ts';
import { atReliability } from './reliability.ts';

/** What a forecast rests on, said beside every figure. */
export interface Basis {
  /** Some outcome or component was learnt rather than stated. */
  readonly learnt: boolean;
  /** Her own earlier protocols of this segment. */
  readonly programs: number;
  /** Her own earlier protocols of any segment. */
  readonly allPrograms: number;
  /** Where the field's rates come from. */
  readonly priors: string;
  readonly words: string;
}

/** A model with what it rests on. */
export interface BuiltModel {
  readonly model: ProgramModel;
  readonly basis: Basis;
  readonly warnings: readonly string[];
}

/** What learning may look at. */
export interface Evidence {
  /** Earlier protocols of this skater, of either segment. */
  readonly history: readonly Protocol[];
  /** The rules of an earlier protocol; null: they cannot be chosen, and it is left out with a warning. */
  readonly rulesOf: (protocol: Protocol) => ChosenRules | null;
  readonly priors: Priors;
  /**
   * Weight of an earlier event beside others, 0 to 1: less than 1 where it is known to be unlike the one
   * to come (video review for the panel there and not here, or the other way).
   */
  readonly likeness?: (protocol: Protocol) => number;
  /** Logged run-throughs to learn from beside the protocols; absent: none. */
  readonly practice?: readonly LoggedRunThrough[];
}

/** Place in time: the order where given, else the date as a day number; null: unknown. */
export function timeOf(protocol: Pick<Protocol, 'order' | 'date'>): number | null {
  if (protocol.order !== null) return protocol.order;
  const day = protocol.date === null ? NaN : Date.parse(`${protocol.date}T00:00:00Z`) / 86_400_000;
  return Number.isFinite(day) ? day : null;
}

interface Read {
  readonly programs: readonly EarlierProgram[];
  readonly likeness: readonly number[];
  readonly warnings: readonly string[];
}

function readHistory(evidence: Evidence, rules: ChosenRules): Read {
  const warnings = new Set<string>();
  const programs: EarlierProgram[] = [];
  evidence.history.forEach((protocol, i) => {
    const own = evidence.rulesOf(protocol);
    if (own === null) {
      warnings.add(`Protocol ${protocol.id ?? i + 1} was left out: its rules cannot be chosen.`);
      return;
    }
    const then = own.values.values.goe;
    const now = rules.values.values.goe;
    if (then.max !== now.max) {
      warnings.add(
        `Grades of ${own.values.season} were given from ${then.min} to +${then.max}: they are read as shares of the scale, which is rough.`,
      );
    }
    programs.push(earlierProgram(protocol, timeOf(protocol) ?? i, own));
  });
  const likeness = programs.map(({ protocol }) => evidence.likeness?.(protocol) ?? 1);
  if (likeness.some((l) => l < 1)) {
    warnings.add('Events that differ from this one in video review count less: their calls and levels are not alike.');
  }
  return { programs, likeness, warnings: [...warnings] };
}

/**
 * Spread of the day factor as a share of the scale. Where elements are learnt, not knowing her level
 * moves all of them together as a day does: the fewer her programs, the wider.
 */
function learntForm(learnt: boolean, ofSegment: number, all: number, { form }: Priors): number {
  const programs = ofSegment + (all - ofSegment) / 2;
  return learnt ? Math.hypot(form.day, form.level / Math.sqrt(programs + 0.5)) : form.day;
}

const CALIBRATED = new Set(['senior', 'junior']);

function basisWords(programs: number, allPrograms: number, rules: ChosenRules): string {
  const own =
    programs === 1
      ? 'Based on one of the skater’s own programs'
      : `Based on ${programs === 0 ? 'none' : programs} of the skater’s own programs`;
  const other = allPrograms > programs ? ` (and ${allPrograms - programs} of the other segment)` : '';
  const field = CALIBRATED.has(rules.ageGroup)
    ? 'beside rates of a field of senior and junior internationals under the rules of 2016 to 2018'
    : 'beside rates of senior internationals under old rules, which are not calibrated for this age';
  return `${own}${other}, ${field}.`;
}

/** How often elements come off, where the coach says it. */
function reliabilityWords({ elements }: Layout): readonly string[] {
  const said = elements.filter((e) => e.reliability != null).length;
  if (said === 0) return [];
  return [`How often ${said === 1 ? 'one element comes' : `${said} elements come`} off is as you entered it.`];
}

const unknownFactor = (name: string, rules: ChosenRules): Problem => ({
  code: 'forecast.factor',
  at: 'components',
  found: `no factor for ${name}`,
  expected: `the factor of the components in ${rules.category}, ${rules.segment}`,
  advice: `${rules.values.id} does not know it: give "factor" in the layout, or ask for the element score (--on tes).`,
});

/**
 * Builds the model of a layout: stated outcomes as they stand, everything else learnt. Troubles are
 * located in the layout.
 */
export function buildModel(
  layout: Layout,
  rules: ChosenRules,
  evidence: Evidence,
  on: ScoreOf = 'total',
): Result<BuiltModel> {
  const planned = plannedElements(layout);
  if (!planned.ok) return planned;
  const { programs, likeness, warnings } = readHistory(evidence, rules);
  const plans = planned.value.map((p) => p.element);
  const practice = practiceRows(evidence.practice ?? []);
  const record = ownRecord(plans, programs, rules, evidence.priors, likeness, practice);
  const content = rules.content.content(rules.category, rules.segment);
  const bonus = bonusOf(layout, planned.value, content);
  const elements: ProgramElement[] = [];
  let learntElements = 0;
  for (const [i, element] of layout.elements.entries()) {
    const stated = statedOutcomes(element, i, rules);
    if (!stated.ok) return stated;
    if (stated.value === null) learntElements += 1;
    const outcomes = stated.value ?? learnElement(plans, i, element.grade, record, rules, evidence.priors);
    const one = { no: i + 1, code: element.code, bonus: bonus[i] === true, outcomes };
    elements.push(element.reliability == null ? one : atReliability(one, element.reliability));
  }
  const components = componentParts(layout.components, rules, programs, record.weights, evidence.priors);
  const [missing] = components.unknownFactors;
  if (missing !== undefined && on !== 'tes') return fail(unknownFactor(missing, rules));
  const learntMarks = on !== 'tes' && (layout.components === null || layout.components.some((c) => c.mean === null));
  const ofSegment = programs.filter((p) => p.protocol.segment === rules.segment).length;
  const learnt = learntMarks || (on !== 'pcs' && learntElements > 0);
  return ok({
    model: {
      rules,
      elements,
      components: components.parts,
      formSd:
        layout.form?.sd ??
        learntForm(learntElements > 0, ofSegment, programs.length, evidence.priors) * rules.values.values.goe.max,
      otherDeductions: learntElements > 0 ? learnDeductions(record, evidence.priors) : [],
    },
    basis: {
      learnt,
      programs: ofSegment,
      allPrograms: programs.length,
      priors: evidence.priors.source,
      words: [
        learnt ? basisWords(ofSegment, programs.length, rules) : 'Computed from the outcomes that you entered.',
        ...(learntElements > 0 ? practiceWords(practice.length) : []),
        ...reliabilityWords(layout),
      ].join(' '),
    },
    warnings: [
      ...layout.warnings,
      ...rules.warnings,
      ...warnings,
      ...(on === 'tes' ? [] : components.warnings),
      ...(content === undefined
        ? [
            `${rules.content.id} does not know the content of ${rules.category}, ${rules.segment}: no rule on repeats or surplus is applied.`,
          ]
        : []),
    ],
  });
}
