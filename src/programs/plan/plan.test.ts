import { describe, expect, it } from 'vitest';
import { storedPriors, type Evidence } from '../../forecast/index.ts';
import { shippedLibrary } from '../../rulebook/index.ts';
import type { Inventory, LayoutElement, Stage } from '../../scoring/index.ts';
import { rulesFor } from '../chosen.ts';
import { entry, inventoryOf } from '../testing/random-inventory.ts';
import { ASSUMED_EFFORT, plan, type PlanOptions, type PlanResult } from './plan.ts';

const HEAD = { season: '2025/26', category: 'senior women', segment: 'free' } as const;
const evidence: Evidence = { history: [], rulesOf: () => null, priors: storedPriors() };

const may = (code: string, p: number, stage: Stage | null = null): LayoutElement => ({
  ...entry(code, [
    { p, code, grades: [{ grade: 0, p: 1 }], fall: false },
    { p: 1 - p, code: `${code.split('+')[0] ?? code}<`, grades: [{ grade: -3, p: 1 }], fall: false },
  ]),
  stage,
});

function planned(
  inventory: Inventory,
  current: readonly LayoutElement[] | null,
  more: Partial<PlanOptions> = {},
): PlanResult {
  const rules = rulesFor(shippedLibrary(), inventory);
  if (!rules.ok) throw new Error(rules.error.advice);
  const options: PlanOptions = {
    objective: { kind: 'expected' },
    effort: ASSUMED_EFFORT,
    frozen: false,
    date: null,
    evidence,
    shouldStop: () => false,
    ...more,
  };
  const layout = current === null ? null : { ...inventory, elements: current };
  const result = plan(inventory, layout, rules.value, options);
  if (!result.ok) throw new Error(result.error.advice);
  return result.value;
}

describe('a plan to the next competition', () => {
  const entries = [may('2A', 0.8), may('3S', 0.7, 'in-run-throughs'), may('3Lz', 0.6, 'landed'), may('2Lz', 0.9)];
  const inventory = inventoryOf(entries, HEAD);

  it('suggests released elements only', () => {
    const result = planned(inventory, [may('2A', 0.8)]);
    const told = result.changes.map((c) => c.what).join('; ');
    expect(told).toContain('3S');
    expect(told).not.toContain('3Lz');
  });

  it('swaps in nothing new after the freeze', () => {
    const result = planned(inventory, [may('2A', 0.8)], { frozen: true });
    expect(result.changes.some((c) => c.kind === 'swap')).toBe(false);
  });

  it('ranks by gain for the work stated', () => {
    const result = planned(inventory, null, { effort: { ...ASSUMED_EFFORT, safer: 1 } });
    const rates = result.changes.map((c) => c.gainPerEffort);
    expect(rates).toEqual([...rates].sort((a, b) => b - a));
    // Ten per cent of 3S: 0.10 x (4.30 - (3.44 - 3 x 0.34)) = 0.188, last of the jumps or not.
    expect(result.changes.find((c) => c.what.startsWith('3S'))?.gain).toBeGreaterThan(0.18);
  });

  it('lists the planned content without levels, with times', () => {
    const result = planned(inventory, [may('2A', 0.8), { ...entry('CCoSp3', null), start: 75, grade: 0 }]);
    expect(result.content.map((l) => l.code)).toEqual(['2A', 'CCoSp']);
    expect(result.content[1]).toMatchObject({ time: '1:15', approximate: false });
  });
});
