import { categoryParts } from '../../notation/index.ts';
import type { Citation, Difference, Rulebook, RowDifference, ValueRow } from '../../rulebook/index.ts';

/** The answers of `rulebook … --json`. Points are numbers with at most two decimals. */

/** One value with its place and its source. */
export interface CitedValue {
  readonly path: string;
  readonly value: unknown;
  readonly citation: Citation;
}

const points = (hundredths: number | null): number | null => (hundredths === null ? null : hundredths / 100);

export const listForm = ({ id, body, season, title, provisional, extends: from, valid, categories }: Rulebook) => ({
  id,
  body,
  season,
  title,
  provisional,
  extends: from,
  valid,
  categories,
});

const isBranch = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && Object.keys(value).length > 0;

/** Keys of a rulebook's document that head it; everything else is a rule. */
const HEAD = new Set(['id', 'body', 'season', 'title', 'extends', 'provisional', 'abstract', 'overlay']);

/**
 * The places of a path: `content.novice women.free` asks for what stands under the category, under its
 * age group and under `all`; any other path for itself.
 */
function placesOf(at: string): readonly string[] {
  const [family = '', selector = '', ...rest] = at.split('.');
  const { ageGroup, sex } = categoryParts(selector);
  if (ageGroup === null || sex === null) return [at];
  return ['all', ageGroup, selector].map((one) => [family, one, ...rest].join('.'));
}

/** Every value of a rulebook, or of the part below a path; lists are one value. */
export function citedValues(book: Rulebook, at?: string): readonly CitedValue[] {
  const found: CitedValue[] = [];
  const places = at === undefined ? null : placesOf(at);
  const wanted = (path: string): boolean =>
    places === null || places.some((place) => path === place || path.startsWith(`${place}.`));
  const walk = (value: unknown, path: string): void => {
    if (isBranch(value))
      for (const [key, item] of Object.entries(value)) walk(item, path === '' ? key : `${path}.${key}`);
    else if (wanted(path)) found.push({ path, value, citation: book.citation(path) });
  };
  const document = isBranch(book.document) ? book.document : {};
  walk(Object.fromEntries(Object.entries(document).filter(([key]) => !HEAD.has(key))), '');
  return found;
}

const rowForm = (row: ValueRow) => ({
  code: row.code,
  base: points(row.base),
  grades: row.grades?.map((grade) => points(grade)) ?? null,
  citation: row.citation,
});

export const rulebookForm = (book: Rulebook, at: string | undefined) => ({
  ...listForm(book),
  values: citedValues(book, at),
  rows:
    at === undefined
      ? book
          .rowCodes()
          .flatMap((code) => book.row(code) ?? [])
          .map(rowForm)
      : [],
});

export const changesForm = (
  before: Rulebook,
  after: Rulebook,
  changes: readonly Difference[],
  rows: readonly RowDifference[],
) => ({
  a: before.id,
  b: after.id,
  changes,
  rows: rows.map((row) => ({
    code: row.code,
    before: row.before && rowForm(row.before),
    after: row.after && rowForm(row.after),
  })),
});
