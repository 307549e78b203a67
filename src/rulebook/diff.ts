import { formatPath, isTree, type Path, type Tree } from './tree.ts';
import type { Citation, Rulebook, ValueRow } from './types.ts';

/** One value that differs; a side is null where that rulebook does not state it. */
export interface Difference {
  readonly path: string;
  readonly before: { readonly value: unknown; readonly citation: Citation } | null;
  readonly after: { readonly value: unknown; readonly citation: Citation } | null;
}

const HEAD = new Set(['id', 'extends', 'season', 'title', 'valid', 'provisional', 'body', 'abstract', 'overlay']);

const ruleValues = (rulebook: Rulebook): Tree =>
  isTree(rulebook.document)
    ? Object.fromEntries(Object.entries(rulebook.document).filter(([key]) => !HEAD.has(key)))
    : {};

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** A value that is there, or the fact that it is not. */
type Side = { readonly value: unknown } | null;

const sideOf = (tree: Tree, key: string): Side => (Object.hasOwn(tree, key) ? { value: tree[key] } : null);

/** Goes down where both sides, or the only side, are branches; lists are compared whole. */
function* changedPaths(a: Side, b: Side, path: Path): Generator<{ path: Path; a: Side; b: Side }> {
  const [left, right] = [a?.value ?? {}, b?.value ?? {}];
  const branches = [a, b].every((side) => side === null || isTree(side.value));
  const keys = isTree(left) && isTree(right) ? [...new Set([...Object.keys(right), ...Object.keys(left)])] : [];
  if (branches && isTree(left) && isTree(right) && keys.length > 0) {
    for (const key of keys) yield* changedPaths(sideOf(left, key), sideOf(right, key), [...path, key]);
  } else if (!a || !b || !same(a.value, b.value)) yield { path, a, b };
}

/**
 * What changes from one rulebook to another, leaf by leaf, in the order of the second document, then
 * what only the first one states. Ids, seasons and dates of validity are not compared. Where one side
 * is null and the other a whole record, the record is one change.
 */
export function diffRulebooks(before: Rulebook, after: Rulebook): readonly Difference[] {
  const cited = (rulebook: Rulebook, side: Side, path: string): Difference['before'] =>
    side && { value: side.value, citation: rulebook.citation(path) };
  return [...changedPaths({ value: ruleValues(before) }, { value: ruleValues(after) }, [])].map(({ path, a, b }) => {
    const text = formatPath(path);
    return { path: text, before: cited(before, a, text), after: cited(after, b, text) };
  });
}

/** One row of the scale of values that differs; a side is null where that season has no such row. */
export interface RowDifference {
  readonly code: string;
  readonly before: ValueRow | null;
  readonly after: ValueRow | null;
}

/** Rows of the scale of values whose base value or grades differ, derived rows (`<`, `e`, `V`) too. */
export function diffRows(before: Rulebook, after: Rulebook): readonly RowDifference[] {
  const figures = (row: ValueRow | null): unknown => row && [row.base, row.grades];
  return [...new Set([...after.rowCodes(), ...before.rowCodes()])]
    .map((code) => ({ code, before: before.row(code) ?? null, after: after.row(code) ?? null }))
    .filter((row) => !same(figures(row.before), figures(row.after)));
}
