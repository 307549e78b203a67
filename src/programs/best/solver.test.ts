import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import { rulesFor } from '../chosen.ts';
import { fullInventory } from '../testing/full-inventory.ts';
import { loadSolver } from '../testing/solver.ts';
import { linearProgram } from '../testing/linear-program.ts';
import { bestLayouts } from './best.ts';

describe('best expected score of full-size inventories', () => {
  it('is that of a general mixed-integer solver', async () => {
    const highs = await loadSolver();
    for (let seed = 1; seed <= 12; seed++) {
      const inventory = fullInventory(seed, true);
      const rules = rulesFor(shippedLibrary(), inventory);
      if (!rules.ok) throw new Error(rules.error.advice);
      const solved = highs.solve(linearProgram(inventory, rules.value.values), { mip_rel_gap: 0 });
      const result = bestLayouts(inventory, rules.value, { kind: 'expected' });
      if (!result.ok) throw new Error(result.error.advice);
      expect(solved.Status).toBe('Optimal');
      expect(result.value.proven).toBe(true);
      expect(result.value.layouts[0]?.value).toBeCloseTo(solved.ObjectiveValue / 100, 6);
    }
  });
});
