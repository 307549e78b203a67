import { formatPath, isTree, lookUp, type Path } from './tree.ts';
import type { Citation, Rulebook } from './types.ts';

/** One value that differs; a side is null where that rulebook does not state it. */
export interface Difference {
  readonly path: string;
  readonly before: { readonly value: unknown; readonly citation: Citation } | null;
  readonly after: { readonly value: unknown; readonly citation: Citation } | null;
}

const HEAD = new Set(['id', 'extends', 'season', 'title', 'valid', 'provisional', 'body', 'abstract', 'overlay']);

/** Lists are compared whole: an item more or less is one change of the list. */
function* leafPaths(value: unknown, path: Path = []): Generator<Path> {
  if (isTree(value) && Object.keys(value).length > 0) {
    for (const [key, item] of Object.entries(value)) yield* leafPaths(item, [...path, key]);
  } else yield path;
}

const ruleValues = (rulebook: Rulebook): unknown =>
  isTree(rulebook.document)
    ? Object.fromEntries(Object.entries(rulebook.document).filter(([key]) => !HEAD.has(key)))
    : {};

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/**
 * What changes from one rulebook to another, leaf by leaf, in the order of the second document, then
 * what only the first one states. Ids, seasons and dates of validity are not compared.
 */
export function diffRulebooks(before: Rulebook, after: Rulebook): readonly Difference[] {
  const [a, b] = [ruleValues(before), ruleValues(after)];
  const side = (rulebook: Rulebook, root: unknown, path: Path): Difference['before'] => {
    const { found, value } = lookUp(root, path);
    return found ? { value, citation: rulebook.citation(formatPath(path)) } : null;
  };
  const paths = new Map([...leafPaths(b), ...leafPaths(a)].map((path) => [formatPath(path), path]));
  return [...paths]
    .map(([text, path]) => ({ path: text, before: side(before, a, path), after: side(after, b, path) }))
    .filter(({ before: x, after: y }) => (x === null) !== (y === null) || !same(x?.value, y?.value))
    .filter(({ before: x, after: y }) => !(isBranch(x?.value) || isBranch(y?.value)) || x === null || y === null);
}

/** A leaf on one side may be a branch on the other: the branch's own leaves tell the change. */
const isBranch = (value: unknown): boolean => isTree(value) && Object.keys(value).length > 0;
