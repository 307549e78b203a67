import { bestLayouts, checkLayout, rulesFor, type Objective } from '../src/programs/index.ts';
import { fullInventory } from '../src/programs/testing/full-inventory.ts';
import { linearProgram } from '../src/programs/testing/linear-program.ts';
import { loadSolver } from '../src/programs/testing/solver.ts';
import { shippedLibrary, type ChosenRules } from '../src/rulebook/index.ts';
import type { Inventory } from '../src/scoring/index.ts';

/*
 * Best layouts of a senior free skate from 25 jump elements, 8 spins and 2 sequences on one core: time to
 * the proven optimum for each objective, the ratio to a general mixed-integer solver on the same
 * instances (those a linear program can state), and checks per second.
 */

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

const chosen = (inventory: Inventory): ChosenRules => {
  const rules = rulesFor(shippedLibrary(), inventory);
  if (!rules.ok) throw new Error(rules.error.advice);
  return rules.value;
};

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? NaN;

/** Milliseconds of processor time: other work on the machine is left out. */
function time(run: () => void): number {
  const before = process.cpuUsage();
  run();
  return process.cpuUsage(before).user / 1000;
}

function solve(inventory: Inventory, objective: Objective): number {
  const rules = chosen(inventory);
  const stop = performance.now() + LONGEST;
  const proofs: boolean[] = [];
  const ms = time(() => {
    const result = bestLayouts(inventory, rules, objective, { shouldStop: () => performance.now() > stop });
    proofs.push(result.ok && result.value.proven);
  });
  return proofs.includes(false) ? Infinity : ms;
}

/** Milliseconds after which a search is given up; it then counts as endless. */
const LONGEST = 60_000;

const show = (name: string, list: readonly number[]): void => {
  const proven = list.filter(Number.isFinite).length;
  const figures = `median ${median(list).toFixed(0)} ms, slowest ${Math.max(...list).toFixed(0)} ms`;
  console.log(`${name.padEnd(44)} ${figures}, ${proven} of ${list.length} proven`);
};

const wild = SEEDS.map((seed) => fullInventory(seed, false));
const calm = SEEDS.map((seed) => fullInventory(seed, true));

for (const inventory of wild) solve(inventory, { kind: 'expected' });
show(
  'expected score',
  wild.map((inventory) => solve(inventory, { kind: 'expected' })),
);

const targets = wild.map((inventory) => {
  const result = bestLayouts(inventory, chosen(inventory), { kind: 'expected' });
  const best = result.ok ? result.value.layouts[0] : undefined;
  return Math.round(((best?.expected ?? 0) + (best?.sd ?? 0) / 2) * 100);
});
/** The same inventory with a form of the day: every element is a little better or worse with it. */
const withForm = (inventory: Inventory): Inventory => ({ ...inventory, form: { sd: 0.3 } });

const objectives: readonly (readonly [string, (index: number) => Objective])[] = [
  ['chance of half a spread above the mean', (i) => ({ kind: 'chance', target: targets[i] ?? 0 })],
  ['the score of nine programs in ten', () => ({ kind: 'quantile', level: 0.1 })],
];
for (const [name, objective] of objectives) {
  show(
    name,
    wild.map((inventory, i) => solve(inventory, objective(i))),
  );
}

show(
  'chance, with a form of the day',
  wild.slice(0, 3).map((inventory, i) => solve(withForm(inventory), { kind: 'chance', target: targets[i] ?? 0 })),
);

const solver = await loadSolver();
const ours = calm.map((inventory) => solve(inventory, { kind: 'expected' }));
const theirs = calm.map((inventory) => {
  const problem = linearProgram(inventory, chosen(inventory).values);
  return time(() => void solver.solve(problem, { mip_rel_gap: 0 }));
});
show('expected score, instances of the solver', ours);
show('general solver on the same instances', theirs);
console.log(`ratio to the general solver: ${(median(ours) / median(theirs)).toFixed(2)}`);

const layout = { ...(wild[0] ?? fullInventory(1, false)), elements: (wild[0]?.elements ?? []).slice(0, 7) };
const rules = chosen(layout);
const CHECKS = 2000;
const ms = time(() => {
  for (let i = 0; i < CHECKS; i++) checkLayout(layout, rules);
});
console.log(`checks of a seven-element layout: ${Math.round((CHECKS / ms) * 1000)} per second`);
