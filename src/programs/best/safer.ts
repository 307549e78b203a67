import { buildModel, type Evidence, type SkatedOutcome } from '../../forecast/index.ts';
import { fail, formatElement, ok, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import type { Inventory, LayoutElement, Outcome } from '../../scoring/index.ts';
import { readPlannedElements } from '../planned.ts';
import { segmentRules } from '../segment-rules.ts';
import { bestLayouts, DEFAULT_OPTIONS, type BestOptions, type BestResult } from './best.ts';
import type { Objective } from './objective.ts';
import { meant } from './pool.ts';

/** A what-if: an element that comes off as planned that much more often. */
export interface Safer {
  readonly code: string;
  /** Share of all tries, 0 to 1: 0.1 is one more of ten. */
  readonly by: number;
}

/** What changes if an element became safer, by the model of the numbers entered. */
export interface SaferAnswer {
  readonly code: string;
  readonly by: number;
  readonly changes: boolean;
  readonly before: { readonly codes: readonly string[]; readonly value: number; readonly expected: number };
  readonly after: { readonly codes: readonly string[]; readonly value: number; readonly expected: number };
  /** In the unit of the objective. */
  readonly gain: number;
  readonly proven: boolean;
}

/** Does an outcome show the element as it was planned? */
const isPlanned = (outcome: Outcome, code: string): boolean => outcome.code === code && !outcome.fall;

/**
 * The element with a share of all tries moved from what goes otherwise to what was planned; null where
 * nothing is stated, it never comes off, or it always does.
 */
export function saferElement(element: LayoutElement, by: number): LayoutElement | null {
  const { outcomes, code } = element;
  if (outcomes === null) return null;
  const good = outcomes.reduce((sum, o) => sum + (isPlanned(o, code) ? o.p : 0), 0);
  if (good <= 0 || good >= 1) return null;
  const moved = Math.min(by, 1 - good);
  return {
    ...element,
    outcomes: outcomes.map((o) => ({
      ...o,
      p: isPlanned(o, code) ? (o.p * (good + moved)) / good : (o.p * (1 - good - moved)) / (1 - good),
    })),
  };
}

const stated = (outcomes: readonly SkatedOutcome[]): readonly Outcome[] =>
  outcomes.map(({ p, element, grades, fall }) => ({ p, code: formatElement(element), grades, fall }));

/** The inventory with every entry that the code means made safer; learnt outcomes are stated first. */
function saferInventory(
  inventory: Inventory,
  chosen: ChosenRules,
  { code, by }: Safer,
  evidence: Evidence,
): Result<Inventory> {
  const planned = readPlannedElements(inventory, segmentRules(chosen));
  if (!planned.ok) return planned;
  const built = buildModel(inventory, chosen, evidence);
  if (!built.ok) return built;
  const elements = inventory.elements.map((entry, i) => {
    const one = planned.value[i];
    if (one === undefined || !meant(code, one.element)) return entry;
    const outcomes = entry.outcomes ?? stated(built.value.model.elements[i]?.outcomes ?? []);
    const name = entry.outcomes === null ? formatElement(one.element) : entry.code;
    return { ...entry, outcomes: saferElement({ ...entry, code: name, outcomes }, by)?.outcomes ?? entry.outcomes };
  });
  if (elements.some((entry, i) => entry.outcomes !== inventory.elements[i]?.outcomes)) {
    return ok({ ...inventory, elements });
  }
  return fail({
    code: 'programs.safer',
    at: '--safer',
    found: `“${code}”`,
    expected: 'an element of the inventory that comes off as planned sometimes, and not always',
    advice: 'Name an entry as the inventory writes it, e.g. --safer 3Lz or --safer 3Lz:5.',
  });
}

/** Would another layout be best if an element became safer? Everything else stays as entered. */
export function ifSafer(
  now: BestResult,
  inventory: Inventory,
  chosen: ChosenRules,
  objective: Objective,
  safer: Safer,
  options: Partial<BestOptions>,
): Result<SaferAnswer | null> {
  const [before] = now.layouts;
  if (before === undefined) return ok(null);
  const changed = saferInventory(inventory, chosen, safer, options.evidence ?? DEFAULT_OPTIONS.evidence);
  if (!changed.ok) return changed;
  const result = bestLayouts(changed.value, chosen, objective, { ...options, top: 1 });
  if (!result.ok) return result;
  const [after] = result.value.layouts;
  if (after === undefined) return ok(null);
  const content = (codes: readonly string[]): string => [...codes].sort().join(' ');
  const told = ({ codes, value, expected }: typeof after) => ({ codes, value, expected });
  return ok({
    ...safer,
    changes: content(before.codes) !== content(after.codes),
    before: told(before),
    after: told(after),
    gain: after.value - before.value,
    proven: now.proven && result.value.proven,
  });
}
