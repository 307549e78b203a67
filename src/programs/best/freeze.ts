import type { Inventory } from '../../scoring/index.ts';

/** The inventory from the freeze day on: elements that were skated in competition, and those in `kept` codes. */
export const onlySkated = (inventory: Inventory, kept: readonly string[] = []): Inventory => ({
  ...inventory,
  elements: inventory.elements.filter((e) => e.stage === 'in-competition' || kept.includes(e.code)),
});
