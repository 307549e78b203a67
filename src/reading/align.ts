/** Two lists in their own order, partner by partner; null where one side has none. */
export interface Pair<A, B> {
  readonly left: A | null;
  readonly right: B | null;
}

export interface AlignmentCosts<A, B> {
  /** Cost of making these two partners; Infinity forbids it. */
  readonly pair: (left: A, right: B) => number;
  /** Cost of leaving one without a partner. */
  readonly alone: number;
}

type Step = 'both' | 'left' | 'right';

/** Longer lists than any program has are paired by place, so that a hostile file cannot hold us up. */
const MOST_CELLS = 250_000;

/**
 * Minimum-cost alignment of two lists that keeps the order of both. Among equally cheap alignments
 * pairs come before single ones, at the end of the lists first, so the answer is always the same.
 * Cost: left * right.
 */
export function align<A, B>(left: readonly A[], right: readonly B[], costs: AlignmentCosts<A, B>): Pair<A, B>[] {
  if (left.length * right.length > MOST_CELLS) return byPlace(left, right, costs);
  const table = costTable(left, right, costs);
  const pairs: Pair<A, B>[] = [];
  let i = left.length;
  let j = right.length;
  while (i > 0 || j > 0) {
    const step = cell(table, i, j).step;
    if (step !== 'right') i -= 1;
    if (step !== 'left') j -= 1;
    pairs.push({
      left: step === 'right' ? null : (left[i] ?? null),
      right: step === 'left' ? null : (right[j] ?? null),
    });
  }
  return pairs.reverse();
}

function byPlace<A, B>(left: readonly A[], right: readonly B[], costs: AlignmentCosts<A, B>): Pair<A, B>[] {
  return Array.from({ length: Math.max(left.length, right.length) }, (_, i) => {
    const [one = null, other = null] = [left[i], right[i]];
    const fits = one !== null && other !== null && costs.pair(one, other) < Infinity;
    const pairs: Pair<A, B>[] = [
      { left: one, right: null },
      { left: null, right: other },
    ];
    return fits ? [{ left: one, right: other }] : pairs.filter((pair) => pair.left !== null || pair.right !== null);
  }).flat();
}

interface Cell {
  readonly cost: number;
  readonly step: Step;
}

function costTable<A, B>(left: readonly A[], right: readonly B[], costs: AlignmentCosts<A, B>): Cell[][] {
  const first: Cell[] = [{ cost: 0, step: 'both' }];
  right.forEach((_, j) => first.push({ cost: (j + 1) * costs.alone, step: 'right' }));
  const table: Cell[][] = [first];
  left.forEach((one, i) => {
    const row: Cell[] = [{ cost: (i + 1) * costs.alone, step: 'left' }];
    table.push(row);
    right.forEach((other, j) => {
      row.push(
        cheapest([
          { cost: cell(table, i, j).cost + costs.pair(one, other), step: 'both' },
          { cost: cell(table, i, j + 1).cost + costs.alone, step: 'left' },
          { cost: cell(table, i + 1, j).cost + costs.alone, step: 'right' },
        ]),
      );
    });
  });
  return table;
}

/** The first of the cheapest. */
const cheapest = (cells: readonly [Cell, ...Cell[]]): Cell =>
  cells.reduce((best, c) => (c.cost < best.cost ? c : best));

function cell(table: readonly (readonly Cell[])[], i: number, j: number): Cell {
  const found = table[i]?.[j];
  if (found === undefined) throw new RangeError(`no cell ${i}, ${j}`);
  return found;
}
