import type { Rulebook } from '../../../../src/rulebook/index.ts';
import { points } from '../../words/numbers.ts';

/** A value as words: lists told one after another, yes and no, what is not known said so. */
export function asWords(value: unknown): string {
  if (value === null || value === undefined) return 'not known';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value).replace('-', '−');
  if (Array.isArray(value)) return listWords(value);
  const entries = Object.entries(value as Record<string, unknown>).filter(
    ([key, inner]) => key !== 'cite' && !(Array.isArray(inner) && inner.length === 0),
  );
  // A record of records is told one record after another, a plain one as its words.
  return entries.some(([, inner]) => isRecord(inner))
    ? entries.map(([key, inner]) => `${plainKey(key)}: ${asWords(inner)}`).join('; ')
    : entries.map(([key, inner]) => (key === 'name' ? asWords(inner) : `${plainKey(key)} ${asWords(inner)}`)).join(' ');
}

const isRecord = (value: unknown): boolean => typeof value === 'object' && value !== null && !Array.isArray(value);

const listWords = (list: readonly unknown[]): string =>
  list.length === 0 ? 'none' : list.map(asWords).join(list.some((one) => typeof one === 'object') ? '; ' : ', ');

/** `maxJumpsInUnit` → "max jumps in unit"; codes such as `3Lz<` and categories stay as they are. */
const plainKey = (key: string): string =>
  /\d|[A-Z]{2}/.test(key) ? key : key.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();

/** A path as a name: "senior · free · jump elements · max". */
export const pathWords = (path: readonly string[]): string => path.map(plainKey).join(' · ');

/** The families of a rulebook in the order in which a coach asks for them, with what they are about. */
export const FAMILIES: readonly { readonly key: string; readonly name: string }[] = [
  { key: 'content', name: 'Content of the programs' },
  { key: 'steps', name: 'Step sequences' },
  { key: 'spins', name: 'Spins' },
  { key: 'values', name: 'Grades and averages' },
  { key: 'scale', name: 'How the scale is derived' },
  { key: 'components', name: 'Components' },
  { key: 'deductions', name: 'Deductions' },
  { key: 'reductions', name: 'Grades that calls oblige' },
  { key: 'protests', name: 'What may be asked' },
  { key: 'ages', name: 'Ages' },
  { key: 'valid', name: 'When it holds' },
];

export interface Leaf {
  readonly path: readonly string[];
  readonly value: unknown;
}

/** Every value of a rulebook by family; the rows of the scale of values are a table of their own. */
export function leavesOf(book: Rulebook): ReadonlyMap<string, readonly Leaf[]> {
  const found = new Map<string, Leaf[]>();
  const walk = (value: unknown, path: readonly string[]) => {
    if (path.join('.') === 'scale.rows') return;
    if (value !== null && typeof value === 'object' && !Array.isArray(value)) {
      for (const [key, inner] of Object.entries(value)) if (key !== 'cite') walk(inner, [...path, key]);
      return;
    }
    const [family = ''] = path;
    found.set(family, [...(found.get(family) ?? []), { path, value }]);
  };
  const document = book.document as Record<string, unknown>;
  for (const { key } of FAMILIES) if (document[key] !== undefined) walk(document[key], [key]);
  return found;
}

/** Whether every word of a search stands in a text. */
export const matches = (text: string, search: string): boolean =>
  search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.toLowerCase().includes(word));

/** A base value or points of a grade. */
export const pointsOrNot = (value: number | null): string => (value === null ? 'not known' : points(value));
