import type { Element, JumpElement } from '../../notation/index.ts';
import type { RepeatRules } from '../../rulebook/index.ts';
import { isUnit, kindOf } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import type { PoolItem } from './pool.ts';

/**
 * What can couple the jump elements of a legal choice: the names of jumps about which a repeat rule may
 * still ask, or `all` where other rules (slots, units, Axel, Euler) may strike too.
 */
export type Contested = ReadonlySet<string> | 'all';

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

function facts(item: PoolItem): JumpFacts {
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

function contestedNames(
  total: ReadonlyMap<string, number>,
  alone: ReadonlyMap<string, number>,
  rules: RepeatRules,
): Set<string> {
  const kinds = [...total].filter(([name]) => !isFamily(name) && turnsOf(name) >= rules.freeBelowTurns);
  const families = [...total].filter(([name]) => isFamily(name));
  const twice = kinds.filter(([, times]) => times >= 2).map(([name]) => name);
  const high = twice.filter((name) => isHigh(name, rules));
  const names = new Set<string>([
    ...kinds.filter(([, times]) => rules.maxSame !== null && times > rules.maxSame).map(([name]) => name),
    ...kinds
      .map(([name]) => name)
      .filter(
        (name) => rules.repFromTurns !== null && turnsOf(name) >= rules.repFromTurns && (alone.get(name) ?? 0) >= 2,
      ),
    ...overLimit(high, rules.highKindsTwice),
    ...overLimit(
      high.filter((name) => turnsOf(name) >= 4),
      rules.quadKindsTwice,
    ),
    ...overLimit(
      twice.filter((name) => isSingle(name, rules)),
      rules.singleKindsTwice,
    ),
    ...overLimit(
      twice.filter((name) => !isHigh(name, rules) && !isSingle(name, rules)),
      rules.lowKindsTwice,
    ),
  ]);
  const familiesTwice = families.filter(([, times]) => times >= 2).map(([name]) => name);
  const contestedFamilies = [
    ...overLimit(familiesTwice, rules.familiesTwice),
    ...families.filter(([, times]) => rules.maxPerFamily !== null && times > rules.maxPerFamily).map(([name]) => name),
  ];
  for (const family of contestedFamilies) {
    names.add(family);
    for (const [name] of kinds) if (name.slice(1) === family.slice('family '.length)) names.add(name);
  }
  // One contested class draws in every kind that might come twice: repeats are counted over all of them.
  if (names.size > 0) for (const name of high) if (overLimit(high, rules.highKindsTwice).length > 0) names.add(name);
  return names;
}

/** The last place may be refused because no Axel-type jump came about. */
const axelMayLack = (all: readonly JumpFacts[], { content }: SegmentRules): boolean =>
  content.axelRequired === true &&
  content.jumpElements.max !== null &&
  all.length >= content.jumpElements.max &&
  !all.some((f) => f.surelyAxel);

/** What couples these jump elements; an empty set: nothing, their points simply add up. */
export function contested(items: readonly PoolItem[], rules: SegmentRules): Contested {
  if (rules.content.slots !== null) return 'all';
  const all = items.map(facts);
  if (all.some((f) => f.irregular) || axelMayLack(all, rules)) return 'all';
  const { repeats } = rules.content;
  if (repeats === null) return new Set();
  const total = new Map<string, number>();
  const alone = new Map<string, number>();
  for (const f of all) {
    for (const [name, times] of f.most) total.set(name, (total.get(name) ?? 0) + times);
    for (const name of f.alone) alone.set(name, (alone.get(name) ?? 0) + 1);
  }
  return contestedNames(total, alone, repeats);
}

/** Does any outcome of the item hold a contested name? */
export function isCoupled(item: PoolItem, names: Contested): boolean {
  if (names === 'all') return true;
  const { most } = facts(item);
  for (const name of most.keys()) if (names.has(name)) return true;
  return false;
}
