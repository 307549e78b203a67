import type { Evidence } from '../../forecast/index.ts';
import { fail, ok, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import type { Inventory, Layout, LayoutElement } from '../../scoring/index.ts';
import { bestLayouts } from '../best/best.ts';
import { onlySkated } from '../best/freeze.ts';
import type { Objective } from '../best/objective.ts';
import { checkLayout } from '../check/check.ts';
import { segmentRules } from '../segment-rules.ts';
import { isNoise, worthOf, type Worth } from '../worth.ts';
import { contentList, type ContentLine } from './content-list.ts';
import { trainingSteps } from './training.ts';

/** Kinds of change, and the effort (weeks) that is assumed for one where the coach states none. */
export const ASSUMED_EFFORT = { order: 1, swap: 2, safer: 4, level: 6 } as const;
export type ChangeKind = keyof typeof ASSUMED_EFFORT;
export type Effort = Readonly<Record<ChangeKind, number>>;

/** One change to a program: what it brings, per week of work. */
export interface PlanChange {
  readonly kind: ChangeKind;
  readonly what: string;
  /** In the unit of the objective. */
  readonly gain: number;
  readonly effort: number;
  readonly gainPerEffort: number;
  /** Too small to be seen in one program. */
  readonly insideNoise: boolean;
}

export interface PlanResult {
  readonly id: string | null;
  readonly rulebook: string;
  readonly current: {
    readonly codes: readonly string[];
    readonly value: number;
    readonly expected: number;
    readonly sd: number;
  };
  /** The layout was chosen here because none was given. */
  readonly chosenHere: boolean;
  readonly legal: boolean | null;
  readonly changes: readonly PlanChange[];
  readonly content: readonly ContentLine[];
  readonly goals: readonly string[];
  readonly warnings: readonly string[];
}

export interface PlanOptions {
  readonly objective: Objective;
  readonly effort: Effort;
  /** Content is frozen: only elements that were in competition may be swapped in. */
  readonly frozen: boolean;
  readonly date: string | null;
  readonly evidence: Evidence;
  readonly shouldStop: () => boolean;
}

/** The entries of an inventory that a list of codes names, in its order; an entry not found stands bare. */
function elementsFor(codes: readonly string[], inventory: Inventory): readonly LayoutElement[] {
  return codes.map((code): LayoutElement => {
    const known = inventory.elements.find((e) => e.code === code);
    const bare = {
      start: null,
      half: null,
      grade: null,
      outcomes: null,
      max: null,
      stage: null,
      since: null,
      notBefore: null,
    };
    return known === undefined ? { code, ...bare } : { ...known, max: null };
  });
}

/** A layout of the inventory's skater, season and components with these elements. */
const layoutWith = (inventory: Inventory, elements: readonly LayoutElement[]): Layout => ({ ...inventory, elements });

/** Starts and half marks of the given layout, outcomes of the inventory where the layout has none. */
const currentFrom = (layout: Layout, inventory: Inventory): Layout =>
  layoutWith(
    inventory,
    layout.elements.map((element) => {
      const known = inventory.elements.find((e) => e.code === element.code);
      return {
        ...element,
        outcomes: element.outcomes ?? known?.outcomes ?? null,
        grade: element.grade ?? known?.grade ?? null,
      };
    }),
  );

const released = (inventory: Inventory, frozen: boolean, current: Layout): Inventory =>
  frozen
    ? onlySkated(
        inventory,
        current.elements.map((c) => c.code),
      )
    : inventory;

const without = (list: readonly string[], other: readonly string[]): readonly string[] => {
  const left = [...other];
  return list.filter((code) => {
    const i = left.indexOf(code);
    if (i >= 0) left.splice(i, 1);
    return i < 0;
  });
};

/** Layouts better than the present one: another order, or other released elements. */
function better(
  current: Layout,
  now: Worth,
  inventory: Inventory,
  chosen: ChosenRules,
  options: PlanOptions,
): Result<readonly PlanChange[]> {
  const { objective, date, evidence, shouldStop } = options;
  const usable = released(inventory, options.frozen, current);
  const result = bestLayouts(usable, chosen, objective, { top: SWAPS, date, evidence, shouldStop });
  if (!result.ok) return result;
  const have = current.elements.map((e) => e.code);
  return ok(
    result.value.layouts.flatMap((layout): readonly PlanChange[] => {
      const out = without(have, layout.codes);
      const into = without(layout.codes, have);
      const kind = into.length === 0 && out.length === 0 ? 'order' : 'swap';
      const what =
        kind === 'order'
          ? `other order: ${layout.codes.join(', ')}`
          : `${into.join(', ') || 'nothing'} in place of ${out.join(', ') || 'nothing'}`;
      return change(kind, what, layout.value - now.value, layout.expected - now.expected, now.sd, options);
    }),
  );
}

/** Better layouts that are looked at. */
const SWAPS = 5;

function change(
  kind: ChangeKind,
  what: string,
  gain: number,
  points: number,
  sd: number,
  { effort }: PlanOptions,
): readonly PlanChange[] {
  if (gain <= 1e-6) return [];
  const weeks = effort[kind];
  return [{ kind, what, gain, effort: weeks, gainPerEffort: gain / weeks, insideNoise: isNoise(points, sd) }];
}

/** Goals for the practice log: habits first, then the elements that bring most. */
function goalsFor(changes: readonly PlanChange[]): readonly string[] {
  const trained = changes.filter((c) => c.kind === 'safer' || c.kind === 'level').slice(0, 2);
  return [
    'Three full run-throughs a week, with music, every element in its place.',
    'After each run-through, write down what went otherwise than planned.',
    ...trained.map((c) =>
      c.kind === 'safer'
        ? `In run-throughs, count ${c.what.replace(' 10 % safer', '')}: one more in ten than now.`
        : `Skate ${c.what.split(' to ')[1] ?? c.what} with all its features in every run-through.`,
    ),
  ];
}

const noLayout = (conflict: readonly string[]) =>
  fail({
    code: 'programs.no-layout',
    at: 'elements',
    found: conflict.join('; ') || 'no legal layout',
    expected: 'an inventory from which a legal layout can be made',
    advice: 'Add the elements that are missing, or give the present layout with --layout.',
  });

function presentLayout(
  layout: Layout | null,
  inventory: Inventory,
  chosen: ChosenRules,
  options: PlanOptions,
): Result<Layout> {
  if (layout !== null) return ok(currentFrom(layout, inventory));
  const { objective, date, evidence, shouldStop } = options;
  const result = bestLayouts(inventory, chosen, objective, { top: 1, date, evidence, shouldStop });
  if (!result.ok) return result;
  const [best] = result.value.layouts;
  return best === undefined
    ? noLayout(result.value.conflict)
    : ok(layoutWith(inventory, elementsFor(best.codes, inventory)));
}

/**
 * From now to the next competition: changes ranked by what they bring per week of work, the planned
 * content with times, goals for the log. Only elements that the coach has released are suggested.
 */
export function plan(
  inventory: Inventory,
  layout: Layout | null,
  chosen: ChosenRules,
  options: PlanOptions,
): Result<PlanResult> {
  const { objective, evidence } = options;
  const current = presentLayout(layout, inventory, chosen, options);
  if (!current.ok) return current;
  const now = worthOf(current.value, chosen, objective, evidence);
  if (!now.ok) return now;
  const checked = checkLayout(current.value, chosen);
  if (!checked.ok) return checked;
  const rules = segmentRules(chosen);
  const trained = trainingSteps(current.value, rules).flatMap(({ kind, what, layout: next }): readonly PlanChange[] => {
    const then = worthOf(next, chosen, objective, evidence);
    if (!then.ok) return [];
    return change(
      kind,
      what,
      then.value.value - now.value.value,
      then.value.expected - now.value.expected,
      now.value.sd,
      options,
    );
  });
  const swaps = better(current.value, now.value, inventory, chosen, options);
  if (!swaps.ok) return swaps;
  const changes = [...trained, ...swaps.value].sort((a, b) => b.gainPerEffort - a.gainPerEffort);
  const { value, expected, sd, built } = now.value;
  return ok({
    id: inventory.id,
    rulebook: chosen.id,
    current: { codes: current.value.elements.map((e) => e.code), value, expected, sd },
    chosenHere: layout === null,
    legal: checked.value.legal,
    changes,
    content: contentList(current.value, rules),
    goals: goalsFor(changes),
    warnings: [...new Set([...built.warnings, ...checked.value.warnings])],
  });
}
