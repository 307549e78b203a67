import { AGE_GROUPS, categoryParts, SEXES, type Category } from '../notation/index.ts';
import { isTree, merge, type Path } from './tree.ts';

/**
 * Families that differ by category hold a map selector -> record. A selector is `all`, an age group
 * (`junior`) or a category (`junior women`); the more special one is laid over the more general one.
 */
export const SELECTED = ['components', 'deductions', 'steps', 'spins', 'content', 'ages'] as const;
type SelectedFamily = (typeof SELECTED)[number];

const isSelected = (family: unknown): family is SelectedFamily => SELECTED.some((name) => name === family);

/** Selectors that apply to a category, general first. */
const selectorsOf = (category: Category): readonly string[] => [
  'all',
  categoryParts(category).ageGroup ?? 'senior',
  category,
];

const categories: ReadonlySet<string> = new Set(AGE_GROUPS.flatMap((group) => SEXES.map((sex) => `${group} ${sex}`)));
const groups: ReadonlySet<string> = new Set(AGE_GROUPS);

const isCategory = (text: string): text is Category => categories.has(text);
export const isSelector = (text: string): boolean => text === 'all' || groups.has(text) || categories.has(text);

/** The record of a category in a family, selectors merged; undefined if no selector applies. */
export function select(family: unknown, category: Category): unknown {
  if (!isTree(family)) return undefined;
  return selectorsOf(category)
    .filter((selector) => Object.hasOwn(family, selector))
    .map((selector) => family[selector])
    .reduce<unknown>((earlier, later) => (earlier === undefined ? later : merge(earlier, later)), undefined);
}

/**
 * Paths to try, best first, for a path that names a category: `content.novice women.free` may come
 * from `content.novice.free` or `content.all.free`.
 */
export function selectorPaths(path: Path): readonly Path[] {
  const [family, category, ...rest] = path;
  if (!isSelected(family) || typeof category !== 'string' || !isCategory(category)) return [path];
  return [...selectorsOf(category)].reverse().map((selector) => [family, selector, ...rest]);
}
