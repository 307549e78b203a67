import type { StepRules, TurnType } from '../rulebook/index.ts';
import type { TurnLevel } from './feedback-steps.ts';
import { directionOf, type Move } from './step-sequence.ts';
import type { Direction } from './turns.ts';

/**
 * The panel's count of difficult turns as a point on a small grid: `sum` counts each type at most
 * twice, `cells` counts different pairs of type and rotational direction. Turn level and chances need
 * nothing else, and types are independent of each other, so every exact question is a walk over types.
 */
export interface TurnCount {
  readonly sum: number;
  readonly cells: number;
}

/** Moves of one countable type by rotational direction, as indexes. */
export interface TypeMoves {
  readonly turn: TurnType;
  readonly byDirection: Readonly<Record<Direction, readonly number[]>>;
}

/** Groups the countable moves; types that the sequence lacks are left out. */
export function groupByType(moves: readonly Move[], rules: StepRules): TypeMoves[] {
  return rules.countable
    .map((turn): TypeMoves => {
      const of = (direction: Direction) =>
        moves.flatMap((move, index) => (move.turn === turn && directionOf(move) === direction ? [index] : []));
      return { turn, byDirection: { cw: of('cw'), ccw: of('ccw') } };
    })
    .filter(({ byDirection }) => byDirection.cw.length + byDirection.ccw.length > 0);
}

/** What one type adds when `cw` and `ccw` executions of it are credited. */
export const countOfType = (cw: number, ccw: number, maxPerType: number): TurnCount => ({
  sum: Math.min(maxPerType, cw + ccw),
  cells: Number(cw > 0) + Number(ccw > 0),
});

/** Counts the credited turns. */
export function countTurns(
  groups: readonly TypeMoves[],
  rules: StepRules,
  isCredited: (index: number) => boolean,
): TurnCount {
  const counts = groups.map(({ byDirection }) =>
    countOfType(byDirection.cw.filter(isCredited).length, byDirection.ccw.filter(isCredited).length, rules.maxPerType),
  );
  return counts.reduce((all, one) => ({ sum: all.sum + one.sum, cells: all.cells + one.cells }), { sum: 0, cells: 0 });
}

/** Turn level of a count: complexity by cells, the rest by the counted sum. */
export function turnLevelOf({ sum, cells }: TurnCount, rules: StepRules): TurnLevel {
  const [one, two, three] = rules.turnCounts;
  if (cells >= rules.complexityCells) return 4;
  if (sum >= three) return 3;
  if (sum >= two) return 2;
  return sum >= one ? 1 : 0;
}

/** A number for every point of the grid: a probability, or a smallest number of losses. */
export interface Grid {
  readonly sums: number;
  readonly cells: number;
  readonly at: Float64Array;
}

/** One possible outcome of a type with its number. */
export interface Step extends TurnCount {
  readonly value: number;
}

/**
 * Combines the outcomes of all types. `join` puts a number so far and a type's number together (times
 * for probabilities, plus for losses), `merge` two ways to the same point (plus, or the smaller).
 */
export function walkTypes(
  types: readonly (readonly Step[])[],
  rules: StepRules,
  start: { readonly empty: number; readonly first: number },
  join: (soFar: number, value: number) => number,
  merge: (a: number, b: number) => number,
): Grid {
  const sums = rules.maxPerType * rules.countable.length + 1;
  const cells = 2 * rules.countable.length + 1;
  let at = new Float64Array(sums * cells).fill(start.empty);
  at[0] = start.first;
  types.forEach((steps, done) => {
    const next = new Float64Array(sums * cells).fill(start.empty);
    // After so many types nothing lies beyond this corner of the grid.
    const [mostSum, mostCells] = [rules.maxPerType * done, 2 * done];
    for (let sum = 0; sum <= mostSum; sum += 1)
      for (let cell = 0; cell <= mostCells; cell += 1) {
        const from = sum * cells + cell;
        const soFar = at[from] ?? start.empty;
        if (soFar !== start.empty) spread(next, from, soFar, steps);
      }
    at = next;
  });
  return { sums, cells, at };

  function spread(next: Float64Array, from: number, soFar: number, steps: readonly Step[]): void {
    for (const step of steps) {
      const to = from + step.sum * cells + step.cells;
      next[to] = merge(next[to] ?? start.empty, join(soFar, step.value));
    }
  }
}

/** Calls `visit` for every point of the grid. */
export function eachPoint(grid: Grid, visit: (count: TurnCount, value: number) => void): void {
  for (let sum = 0; sum < grid.sums; sum += 1)
    for (let cells = 0; cells < grid.cells; cells += 1) visit({ sum, cells }, grid.at[sum * grid.cells + cells] ?? 0);
}
