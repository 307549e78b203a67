import { expect, it } from 'vitest';
import { buildModel, distributionOf, moments, outcomesAt, storedPriors, takeInHand } from '../../src/forecast/index.ts';
import { chooseRules, shippedLibrary, type ChosenRules } from '../../src/rulebook/index.ts';
import { readLayout } from '../../src/scoring/index.ts';
import {
  chanceOf,
  daysAhead,
  inOrder,
  lookingAhead,
  movesAhead,
  programKey,
} from '../../web/src/rooms/layout/ahead.ts';
import { formOf, type PlanNote } from '../../web/src/rooms/layout/notes.ts';

const SECONDS = 240;
// Two Axels and two flips of which pops collide, a sequence of steps and three spins in between.
const CODES = ['3F+2T', '2A', 'CCoSp3', '3S', 'StSq2', '3F', '2A+2T', 'FSSp3', '2Lz', 'ChSq1', 'LSp3'];
const notes: readonly PlanNote[] = CODES.map((code, i) => ({ id: `n${i}`, code, start: 10 + i * 20, more: {} }));

function rulesOf(): ChosenRules {
  const chosen = chooseRules(shippedLibrary(), {
    season: '2023-24',
    category: 'senior women',
    segment: 'free',
    body: 'isu',
  });
  if (!chosen.ok) throw new Error(chosen.error.advice);
  return chosen.value;
}
const rules = rulesOf();
const layoutOf = (all: readonly PlanNote[]) => ({
  ...formOf({}, all),
  season: '2023-24',
  category: 'senior women',
  segment: 'free',
});

function modelOf(form: Record<string, unknown>) {
  const layout = readLayout(form);
  if (!layout.ok) throw new Error(layout.error.advice);
  const built = buildModel(layout.value, rules, { history: [], rulesOf: () => null, priors: storedPriors() }, 'tes');
  if (!built.ok) throw new Error(built.error.advice);
  return built.value.model;
}

/** Mean and spread to a hundred-millionth of a point: two programs that agree in both are called alike in all. */
function figures(form: Record<string, unknown>): string {
  const pmf = distributionOf(modelOf(form), 'tes');
  if (!pmf.ok) throw new Error(pmf.error.advice);
  const { mean, sd } = moments(pmf.value);
  return `${mean.toFixed(6)} ${sd.toFixed(6)}`;
}

/** A fixed row of numbers from 0 to 1. */
function* numbers(): Generator<number> {
  for (let x = 12345; ; x = (x * 1103515245 + 12345) % 2147483648) yield x / 2147483648;
}

it('programs of one key have one range, in whatever order jumps, spins and sequences follow one another', () => {
  const byKey = new Map<string, Set<string>>();
  const orders = new Map<string, number>();
  const random = numbers();
  const jumps = notes.filter((n) => /^\d/.test(n.code));
  for (let i = 0; i < 30; i += 1) {
    // Jumps in three orders, everything else anywhere between them.
    const order = [...jumps.slice(i % 3), ...jumps.slice(0, i % 3)];
    const starts = order.map(() => Math.floor((random.next().value as number) * SECONDS)).sort((a, b) => a - b);
    const placed = notes.map((n) => {
      const at = order.findIndex((j) => j.id === n.id);
      return { ...n, start: starts[at] ?? Math.floor((random.next().value as number) * SECONDS) };
    });
    const sorted = inOrder(placed);
    const key = programKey(sorted, rules, null);
    orders.set(key, (orders.get(key) ?? 0) + 1);
    byKey.set(key, (byKey.get(key) ?? new Set()).add(figures(layoutOf(sorted))));
  }
  expect([...byKey.values()].filter((found) => found.size !== 1)).toEqual([]);
  expect(Math.max(...orders.values())).toBeGreaterThan(2);
  const all = new Set([...byKey.values()].flatMap((found) => [...found]));
  expect(all.size).toBeGreaterThan(3);
});

it('whatever place a note is dragged to was looked ahead, and a jump at the half and past its like is another program', () => {
  const page = { notes, rules, seconds: SECONDS, target: null, layoutOf };
  for (const { id } of notes) {
    const known = new Map(movesAhead(page, id).map((one) => [one.key, one]));
    for (let start = 0; start < SECONDS; start += 1) {
      const key = programKey(inOrder(notes.map((n) => (n.id === id ? { ...n, start } : n))), rules, null);
      expect(known.has(key)).toBe(true);
    }
  }
  expect(movesAhead(page, 'n5').length).toBeGreaterThan(5);
  // A spin among three spins.
  expect(movesAhead(page, 'n2')).toHaveLength(3);
});

it('every day of a slider was looked ahead and is what the changed layout brings', () => {
  const page = { notes, rules, seconds: SECONDS, target: null, layoutOf };
  const list = daysAhead(page, 0, 14);
  expect(list).toHaveLength(21);
  expect(list[0]).toMatchObject({ index: 0, reliability: 0.7 });
  const model = modelOf(layoutOf(notes));
  const hand = takeInHand(model, 0, 'tes');
  const element = model.elements[0];
  for (const day of [0, 9, 20]) {
    const outcomes = element === undefined ? null : outcomesAt(element, chanceOf(day));
    const pmf = hand.ok && outcomes !== null ? hand.value.with(outcomes) : null;
    if (pmf?.ok !== true) throw new Error('The first jump cannot be taken in hand.');
    const said = notes.map((n, i) => (i === 0 ? { ...n, more: { reliability: chanceOf(day) } } : n));
    const { mean, sd } = moments(pmf.value);
    expect(`${mean.toFixed(6)} ${sd.toFixed(6)}`).toBe(figures(layoutOf(said)));
    expect(list.map((one) => one.key)).toContain(programKey(said, rules, null));
  }
});

it('with nothing in hand the nearest places of all notes are looked ahead', () => {
  const page = { notes, rules, seconds: SECONDS, target: 90, layoutOf };
  const list = lookingAhead(page, null, null);
  expect(list.length).toBeGreaterThan(notes.length);
  expect(list.every((one) => one.target === 90)).toBe(true);
  expect(lookingAhead(page, 'n5', null)).toEqual(movesAhead(page, 'n5'));
});
