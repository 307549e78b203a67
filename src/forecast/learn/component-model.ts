import type { ChosenRules } from '../../rulebook/index.ts';
import type { LayoutComponent } from '../../scoring/index.ts';
import type { ComponentPart } from '../exact/program.ts';
import { meanComponent } from './estimate.ts';
import type { Priors } from './priors.ts';
import type { EarlierProgram } from './skated.ts';

/** Where nothing at all is known of a category, component marks are this wide around the middle of the lower half. */
const UNKNOWN = { mean: 4.5, between: 1.5, within: 0.4 };
/** The usual mark moves by about this much from event to event. */
const DRIFT = 0.08;

interface Field {
  readonly mean: number;
  readonly between: number;
  readonly within: number;
}

/** Figures of the category's field in this segment; null: none are known. */
function fieldOf(rules: ChosenRules, priors: Priors): Field | null {
  return priors.components[`${rules.category} ${rules.segment}`] ?? null;
}

/** Her mean mark on the day to come: a random walk seen through the panels of earlier events. */
interface Usual {
  readonly mean: number;
  readonly sd: number;
}

function usual(programs: readonly EarlierProgram[], weights: readonly number[], field: Field): Usual {
  let sum = 0;
  let n = 0;
  programs.forEach((program, i) => {
    const mark = meanComponent(program.protocol);
    if (mark === null) return;
    const w = weights[i] ?? 0;
    sum += w * mark;
    n += w;
  });
  const k = field.within ** 2 / field.between ** 2;
  const mean = (sum + k * field.mean) / (n + k);
  const own = field.within ** 2 / (n + k);
  return { mean, sd: Math.sqrt(field.within ** 2 + own + DRIFT ** 2) };
}

/** How far one component usually lies from the mean of the sheet; 0 where the season had another list. */
function deviation(name: string, programs: readonly EarlierProgram[]): number {
  const found = programs.flatMap(({ protocol }) => {
    const mean = meanComponent(protocol);
    const own = protocol.components.find((c) => c.name.toLowerCase() === name.toLowerCase())?.score ?? null;
    return mean === null || own === null ? [] : [own / 100 - mean];
  });
  return found.reduce((sum, d) => sum + d, 0) / (found.length + 2);
}

export interface LearntComponents {
  readonly parts: readonly ComponentPart[];
  readonly warnings: readonly string[];
  /** Components whose factor neither the layout nor the rulebook knows. */
  readonly unknownFactors: readonly string[];
}

const clampMark = (mark: number, rules: ChosenRules): number => {
  const { min, max } = rules.values.values.componentMarks;
  return Math.min(max, Math.max(min, mark * 100)) / 100;
};

/**
 * Components of a program: what the layout states, else learnt from her earlier sheets of either
 * segment beside the field's marks. `stated` empty: the program has none.
 */
export function componentParts(
  stated: readonly LayoutComponent[] | null,
  rules: ChosenRules,
  programs: readonly EarlierProgram[],
  weights: readonly number[],
  priors: Priors,
): LearntComponents {
  const { list, factor } = rules.values.components(rules.category, rules.segment);
  const wanted = stated ?? list.map(({ name }) => ({ name, factor, mean: null, sd: null }));
  const field = fieldOf(rules, priors);
  const learnt = usual(programs, weights, field ?? UNKNOWN);
  const parts: ComponentPart[] = [];
  const unknownFactors: string[] = [];
  for (const component of wanted) {
    const known = component.factor ?? factor;
    if (known === null) unknownFactors.push(component.name);
    parts.push({
      name: component.name,
      mean: component.mean ?? clampMark(learnt.mean + deviation(component.name, programs), rules),
      sd: component.sd ?? (component.mean === null || stated === null ? learnt.sd : (field ?? UNKNOWN).within),
      factor: known ?? 0,
    });
  }
  const guessed =
    wanted.some((c) => c.mean === null) && field === null && programs.every((p) => meanComponent(p.protocol) === null);
  return {
    parts,
    unknownFactors,
    warnings: guessed
      ? [`No component marks are known for ${rules.category}, ${rules.segment}: they are taken as very wide.`]
      : [],
  };
}
