import type { Element, JumpElement } from '../../notation/index.ts';
import type { RepeatRules } from '../../rulebook/index.ts';
import { isUnit, kindOf } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { AXEL } from './axel.ts';
import type { PoolItem } from './pool.ts';

interface JumpFacts {
  /** Name -> most executions in one outcome. */
  readonly most: ReadonlyMap<string, number>;
  /** Names that stand alone in some outcome. */
  readonly alone: ReadonlySet<string>;
  /** Some outcome has more of something than was planned (longer unit, more Eulers). */
  readonly irregular: boolean;
  /** An Axel-type jump is skated whatever happens. */
  readonly surelyAxel: boolean;
}

const countEulers = (element: JumpElement): number => element.jumps.filter((jump) => jump.name === 'Eu').length;
const isSequence = (element: JumpElement): boolean => element.markers.some((m) => m.marker === 'SEQ');
const hasAxel = (element: JumpElement): boolean => element.jumps.some((jump) => jump.name === 'A' && jump.turns >= 1);

/** A skated outcome that could use up more of the limits than its plan. */
function exceedsPlan(planned: Element, skated: Element): boolean {
  if (planned.kind !== 'jump' || skated.kind !== 'jump') return planned.kind !== skated.kind;
  return (
    (isUnit(skated) && skated.jumps.length > planned.jumps.length) ||
    (isUnit(skated) && isSequence(skated) !== isSequence(planned)) ||
    countEulers(skated) > countEulers(planned)
  );
}

const factsOf = new WeakMap<PoolItem, JumpFacts>();

/** What an element may hold, whatever happens on it. */
export function jumpFacts(item: PoolItem): JumpFacts {
  const known = factsOf.get(item);
  if (known !== undefined) return known;
  const most = new Map<string, number>();
  const alone = new Set<string>();
  let irregular = false;
  for (const { element } of item.outcomes) {
    irregular ||= exceedsPlan(item.element, element);
    if (element.kind !== 'jump') continue;
    const here = new Map<string, number>();
    for (const jump of element.jumps) {
      if (jump.turns < 1 || jump.name === 'Eu') continue;
      for (const name of [kindOf(jump), `family ${jump.name}`]) here.set(name, (here.get(name) ?? 0) + 1);
    }
    for (const [name, times] of here) most.set(name, Math.max(most.get(name) ?? 0, times));
    if (!isUnit(element)) for (const name of here.keys()) alone.add(name);
  }
  const surelyAxel = item.outcomes.every(({ element }) => element.kind === 'jump' && hasAxel(element));
  const result = { most, alone, irregular, surelyAxel };
  factsOf.set(item, result);
  return result;
}

const turnsOf = (name: string): number => Number(name[0]);
const isFamily = (name: string): boolean => name.startsWith('family');
const isHigh = (name: string, rules: RepeatRules): boolean =>
  turnsOf(name) + (name.endsWith('A') ? 0.5 : 0) >= rules.highTurnsFrom;
const isSingle = (name: string, rules: RepeatRules): boolean =>
  !isHigh(name, rules) && turnsOf(name) === 1 && rules.singleKindsTwice !== null;

/** Names of a class that might come twice, if they might be more than the limit. */
function overLimit(repeatable: readonly string[], limit: number | null): readonly string[] {
  return limit !== null && repeatable.length > limit ? repeatable : [];
}

/** Names that are asked about together: each group by itself, a class limit over all of its kinds. */
function contestedGroups(
  total: ReadonlyMap<string, number>,
  alone: ReadonlyMap<string, number>,
  rules: RepeatRules,
): readonly (readonly string[])[] {
  const kinds = [...total].filter(([name]) => !isFamily(name) && turnsOf(name) >= rules.freeBelowTurns);
  const twice = kinds.filter(([, times]) => times >= 2).map(([name]) => name);
  const high = twice.filter((name) => isHigh(name, rules));
  const singles = twice.filter((name) => isSingle(name, rules));
  const low = twice.filter((name) => !isHigh(name, rules) && !isSingle(name, rules));
  const reducible = (name: string): boolean =>
    rules.repFromTurns !== null && turnsOf(name) >= rules.repFromTurns && (alone.get(name) ?? 0) >= 2;
  return [
    ...kinds.filter(([, times]) => rules.maxSame !== null && times > rules.maxSame).map(([name]) => [name]),
    ...kinds.filter(([name]) => reducible(name)).map(([name]) => [name]),
    overLimit(high, rules.highKindsTwice),
    high.filter((name) => turnsOf(name) >= 4).length > (rules.quadKindsTwice ?? Infinity) ? high : [],
    overLimit(singles, rules.singleKindsTwice),
    overLimit(low, rules.lowKindsTwice),
    ...contestedFamilies(total, kinds, rules),
  ].filter((group) => group.length > 0);
}

/** A family limit draws in every kind of the families it may strike. */
function contestedFamilies(
  total: ReadonlyMap<string, number>,
  kinds: readonly (readonly [string, number])[],
  rules: RepeatRules,
): readonly (readonly string[])[] {
  const families = [...total].filter(([name]) => isFamily(name));
  const twice = families.filter(([, times]) => times >= 2).map(([name]) => name);
  const over = families.filter(([, times]) => rules.maxPerFamily !== null && times > rules.maxPerFamily);
  const struck = [...new Set([...overLimit(twice, rules.familiesTwice), ...over.map(([name]) => name)])];
  const kindsOf = (family: string): readonly string[] =>
    kinds.map(([name]) => name).filter((name) => name.slice(1) === family.slice('family '.length));
  return struck.length === 0 ? [] : [struck.flatMap((family) => [family, ...kindsOf(family)])];
}

/** The last place may be refused because no Axel-type jump came about. */
const axelMayLack = (all: readonly JumpFacts[], { content }: SegmentRules): boolean =>
  content.axelRequired === true &&
  content.jumpElements.max !== null &&
  all.length >= content.jumpElements.max &&
  !all.some((f) => f.surelyAxel);

/** Jump elements that the rules couple with each other, and the names that couple them. */
export interface Component<T> {
  readonly members: readonly T[];
  /** null: every rule may strike, nothing may be left aside. */
  readonly names: ReadonlySet<string> | null;
}

/** Elements apart from each other, and those that are coupled, in groups that are apart from each other. */
export interface Coupling<T> {
  readonly free: readonly T[];
  readonly components: readonly Component<T>[];
}

const touches = (item: PoolItem, names: ReadonlySet<string>): boolean => {
  for (const name of jumpFacts(item).most.keys()) if (names.has(name)) return true;
  return false;
};

/** Joins groups of names that one element touches both of. */
function joinedGroups(
  groups: readonly (readonly string[])[],
  items: readonly PoolItem[],
): readonly ReadonlySet<string>[] {
  let joined: ReadonlySet<string>[] = [];
  for (const group of groups) {
    const fresh = new Set(group);
    const meets = (other: ReadonlySet<string>): boolean =>
      items.some((item) => touches(item, fresh) && touches(item, other));
    const met = joined.filter(meets);
    for (const other of met) for (const name of other) fresh.add(name);
    joined = [...joined.filter((other) => !met.includes(other)), fresh];
  }
  return joined;
}

/**
 * What couples the jump elements of a legal choice. Free elements simply add up, whatever the order;
 * components can be ordered each by itself. Without the rule that keeps the last place for an Axel there are
 * more and smaller components, and no layout is worth less.
 */
export function couplingOf<T extends { readonly item: PoolItem }>(
  set: readonly T[],
  rules: SegmentRules,
  withAxel = true,
): Coupling<T> {
  if (rules.content.slots !== null) return wholly(set, null);
  const items = set.map((m) => m.item);
  const all = items.map(jumpFacts);
  if (all.some((f) => f.irregular)) return wholly(set, null);
  const groups = groupsOf(all, items, rules.content.repeats);
  if (withAxel && axelMayLack(all, rules))
    return wholly(set, new Set([AXEL, ...groups.flatMap((group) => [...group])]));
  const components = groups.map((names) => ({ members: set.filter((m) => touches(m.item, names)), names }));
  const coupled = components.filter(({ members }) => members.length > 1);
  const inside = new Set(coupled.flatMap(({ members }) => members));
  return { free: set.filter((m) => !inside.has(m)), components: coupled };
}

/** Everything hangs together. */
const wholly = <T>(set: readonly T[], names: ReadonlySet<string> | null): Coupling<T> => ({
  free: [],
  components: [{ members: set, names }],
});

/** Groups of names that repeat rules may ask about in these items. */
function groupsOf(
  all: readonly JumpFacts[],
  items: readonly PoolItem[],
  repeats: RepeatRules | null,
): readonly ReadonlySet<string>[] {
  if (repeats === null) return [];
  const total = new Map<string, number>();
  const alone = new Map<string, number>();
  for (const f of all) {
    for (const [name, times] of f.most) total.set(name, (total.get(name) ?? 0) + times);
    for (const name of f.alone) alone.set(name, (alone.get(name) ?? 0) + 1);
  }
  return joinedGroups(contestedGroups(total, alone, repeats), items);
}
