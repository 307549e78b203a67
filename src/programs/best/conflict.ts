import type { ProgramModel } from '../../forecast/index.ts';
import type { ContentRules } from '../../rulebook/index.ts';
import type { Inventory } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';
import { searchExpected } from './expected.ts';
import { makePool } from './pool.ts';
import { prepare } from './search.ts';

/** A rule or constraint that can be taken away to see whether a layout then exists. */
interface Demand {
  readonly name: string;
  readonly without: (asked: Asked) => Asked;
}

interface Asked {
  readonly inventory: Inventory;
  readonly content: ContentRules;
}

const rule = (name: string, change: Partial<ContentRules>): Demand => ({
  name,
  without: (asked) => ({ ...asked, content: { ...asked.content, ...change } }),
});

function demands({ inventory, content }: Asked): readonly Demand[] {
  const { must, never } = inventory.constraints;
  const { spins } = content;
  return [
    ...must.map((code): Demand => ({ name: `must: ${code}`, without: (asked) => drop(asked, 'must', code) })),
    ...[...new Set(never)].map((code): Demand => ({
      name: `never: ${code}`,
      without: (asked) => drop(asked, 'never', code),
    })),
    rule('rule: jump slots of the short program', { slots: null }),
    rule('rule: number of jump elements', { jumpElements: { min: null, max: null } }),
    rule('rule: an Axel-type jump', { axelRequired: null }),
    rule('rule: combinations and sequences', {
      maxUnits: null,
      maxCombinations: null,
      maxSequences: null,
      jumpsPerUnit: null,
      eulerExcludesSequence: null,
    }),
    rule('rule: repeats', { repeats: null }),
    rule('rule: highest jump', { maxTurns: null, maxAxelTurns: null, maxTurnsInUnit: null }),
    rule('rule: kinds of spins', { spins: { ...spins, kinds: [], sameCodeForbidden: null } }),
    rule('rule: number of spins', { spins: { min: null, max: null, kinds: [], sameCodeForbidden: null } }),
    rule('rule: number of step sequences', { steps: { min: null, max: null } }),
    rule('rule: choreographic elements', { choreo: { min: null, max: null, forms: [] } }),
  ];
}

function drop(asked: Asked, list: 'must' | 'never', code: string): Asked {
  const { constraints } = asked.inventory;
  const index = constraints[list].indexOf(code);
  const left =
    list === 'must' ? constraints.must.filter((_, i) => i !== index) : constraints.never.filter((c) => c !== code);
  return { ...asked, inventory: { ...asked.inventory, constraints: { ...constraints, [list]: left } } };
}

/** Is there any layout at all? */
function possible(
  asked: Asked,
  model: ProgramModel,
  rules: SegmentRules,
  date: string | null,
  shouldStop: () => boolean,
): boolean {
  const under: SegmentRules = { ...rules, content: asked.content };
  const pool = makePool(asked.inventory, model, under, date, shouldStop);
  if (!pool.ok) return false;
  const setting = prepare(asked.inventory, model, pool.value, under, shouldStop);
  const result = searchExpected(setting, 1, shouldStop);
  return result.found.length > 0;
}

/**
 * A smallest set of rules and constraints that exclude each other: taking away any one of them lets a
 * layout exist. Empty where even without all of them there is none (an empty inventory).
 */
export function findConflict(
  inventory: Inventory,
  model: ProgramModel,
  rules: SegmentRules,
  date: string | null,
  shouldStop: () => boolean,
): readonly string[] {
  let asked: Asked = { inventory, content: rules.content };
  const kept: string[] = [];
  for (const demand of demands(asked)) {
    if (shouldStop()) return [...kept, 'the search for what excludes what was stopped'];
    const without = demand.without(asked);
    if (possible(without, model, rules, date, shouldStop)) kept.push(demand.name);
    else asked = without;
  }
  return kept.length > 0 ? kept : ['the inventory holds nothing that may be used'];
}
