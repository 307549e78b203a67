import {
  buildModel,
  chanceOf,
  moments,
  quantile,
  storedPriors,
  type Evidence,
  type Pmf,
} from '../../forecast/index.ts';
import { ok, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import { segmentRules } from '../segment-rules.ts';
import { findConflict } from './conflict.ts';
import { searchExpected, type SearchResult } from './expected.ts';
import { fallScale } from './falls.ts';
import { pmfOfProgram, type Program } from './layout-of.ts';
import type { Objective } from './objective.ts';
import { makePool, type Excluded } from './pool.ts';
import { prepare, type Setting } from './search.ts';
import { searchTail } from './tail.ts';

/** One layout of the answer. Points as numbers; `value` is in the unit of the objective. */
export interface BestLayout {
  readonly codes: readonly string[];
  readonly value: number;
  readonly expected: number;
  readonly sd: number;
  /** Eight scores in ten lie between these, in points. */
  readonly low: number;
  readonly high: number;
  /** Positions (from 1) that earn the second-half factor. */
  readonly bonus: readonly number[];
}

export interface BestResult {
  readonly id: string | null;
  readonly rulebook: string;
  readonly objective: Objective;
  /** No legal layout of these entries can be better, by this model. */
  readonly proven: boolean;
  /** No layout is worth more than this, in the unit of the objective; null where there is none. */
  readonly bound: number | null;
  readonly layouts: readonly BestLayout[];
  readonly searched: number;
  /** Rules and constraints that exclude each other; only where there is no layout. */
  readonly conflict: readonly string[];
  readonly excluded: readonly Excluded[];
  readonly warnings: readonly string[];
}

export interface BestOptions {
  readonly top: number;
  /** Day of the layout (ISO), for entries that are held back until a date. */
  readonly date: string | null;
  readonly evidence: Evidence;
  /** Asked again and again; true stops the search, the answer is then not proven. */
  readonly shouldStop: () => boolean;
}

export const DEFAULT_OPTIONS: BestOptions = {
  top: 1,
  date: null,
  evidence: { history: [], rulesOf: () => null, priors: storedPriors() },
  shouldStop: () => false,
};

function valueOf(pmf: Pmf, objective: Objective): number {
  if (objective.kind === 'chance') return chanceOf(pmf, objective.target);
  if (objective.kind === 'quantile') return quantile(pmf, objective.level) / 100;
  return moments(pmf).mean / 100;
}

function describe(program: Program, setting: Setting, objective: Objective): Result<BestLayout> {
  const pmf = pmfOfProgram(program, setting);
  if (!pmf.ok) return pmf;
  const { mean, sd } = moments(pmf.value);
  return ok({
    codes: program.map(({ what }) => what.item.source?.code ?? what.item.code),
    value: valueOf(pmf.value, objective),
    expected: mean / 100,
    sd: sd / 100,
    low: quantile(pmf.value, 0.1) / 100,
    high: quantile(pmf.value, 0.9) / 100,
    bonus: program.flatMap(({ place }, i) => (place === 'bonus' ? [i + 1] : [])),
  });
}

/** Better value first, ties to the higher expected score. */
const byWorth = (a: BestLayout, b: BestLayout): number =>
  Math.abs(a.value - b.value) > 1e-12 ? b.value - a.value : b.expected - a.expected;

const NO_LAYOUT = { proven: true, bound: null, layouts: [], searched: 0 } as const;

function unknownRules(setting: Setting): readonly string[] {
  const { content, chosen } = setting.rules;
  const open = [
    ...(content.jumpElements.max === null ? ['how many jump elements'] : []),
    ...(content.repeats === null && content.slots === null ? ['repeats'] : []),
    ...(content.maxUnits === null ? ['combinations and sequences'] : []),
    ...(content.spins.max === null ? ['how many spins'] : []),
    ...(content.bonusLast === null ? ['the second-half factor'] : []),
    ...(fallScale(setting.rules) === null ? ['what a fall costs'] : []),
  ];
  if (open.length === 0) return [];
  return [
    `Not established for ${chosen.category}, ${chosen.segment}: ${open.join(', ')}. None of it restricts this search.`,
  ];
}

/** The bound of a search that was stopped, in points or as a chance; null where there is none. */
function openBound(bound: number, { kind }: Objective, setting: Setting): number | null {
  if (!Number.isFinite(bound)) return null;
  if (kind !== 'expected') return bound;
  const around = pmfOfProgram([], setting);
  return around.ok ? (bound + moments(around.value).mean) / 100 : null;
}

function answer(
  setting: Setting,
  objective: Objective,
  result: SearchResult,
): Result<Pick<BestResult, 'proven' | 'bound' | 'layouts' | 'searched'>> {
  const layouts: BestLayout[] = [];
  for (const { what } of result.found) {
    const layout = describe(what, setting, objective);
    if (!layout.ok) return layout;
    layouts.push(layout.value);
  }
  layouts.sort(byWorth);
  const best = layouts[0]?.value ?? null;
  const bound = result.finished && best !== null ? best : openBound(result.bound, objective, setting);
  return ok({ proven: result.finished, bound, layouts, searched: result.searched });
}

/**
 * The best legal layouts of an inventory for an objective. Proven: branch and bound leaves out only
 * what cannot win. Stopped early, `proven` is false and `bound` says what may still be missed.
 */
export function bestLayouts(
  inventory: Inventory,
  chosen: ChosenRules,
  objective: Objective,
  options: Partial<BestOptions> = {},
): Result<BestResult> {
  const { top, date, evidence, shouldStop } = { ...DEFAULT_OPTIONS, ...options };
  const rules = segmentRules(chosen);
  const built = buildModel(inventory, chosen, evidence);
  if (!built.ok) return built;
  const { model, warnings } = built.value;
  const pool = makePool(inventory, model, rules, date ?? inventory.date, shouldStop);
  if (!pool.ok) return pool;
  const head = { id: inventory.id, rulebook: chosen.id, objective, excluded: pool.value.excluded };
  if (!rules.contentKnown) {
    const conflict = [
      `no content rules are known for ${chosen.category}, ${chosen.segment} program, in ${chosen.content.id}`,
    ];
    return ok({ ...head, ...NO_LAYOUT, proven: false, conflict, warnings });
  }
  // Deductions are learnt only where something of a layout is; entries left out of the pool do not count.
  const stated = pool.value.items.every((item) => item.uses.every((i) => inventory.elements[i]?.outcomes != null));
  const usable = stated ? { ...model, otherDeductions: [] } : model;
  const setting = prepare(inventory, usable, pool.value, rules, shouldStop);
  const notes = [...warnings, ...unknownRules(setting)];
  const searched =
    objective.kind === 'expected'
      ? searchExpected(setting, top, shouldStop)
      : searchTail(setting, objective, top, shouldStop);
  const result = setting.complete ? searched : { ...searched, finished: false, bound: Infinity };
  if (result.found.length === 0) {
    const conflict = result.finished ? findConflict(inventory, model, rules, date ?? inventory.date, shouldStop) : [];
    return ok({ ...head, ...NO_LAYOUT, proven: result.finished, searched: result.searched, conflict, warnings: notes });
  }
  const answered = answer(setting, objective, result);
  if (!answered.ok) return answered;
  return ok({ ...head, ...answered.value, conflict: [], warnings: notes });
}
