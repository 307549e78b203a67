import type { SheetReading } from '../recognise/reading.ts';
import type { PrintedProtocol, SheetForm } from './sheet-forms.ts';

/** How a reading compares with the protocol that was printed. */
export interface Comparison {
  /** Figures and words read as printed. */
  readonly right: number;
  /** Wrong or missing, but a doubt lies on it (or on what it is part of). */
  readonly wrongDoubted: number;
  /** Wrong or missing without a doubt: `elements[2].goe: 0.78 read as 0.87`. */
  readonly silent: readonly string[];
}

/**
 * Every figure of the truth against the reading. Rows are matched by what they say, so that a row that
 * was left out or moved is one difference, not one for each row behind it.
 */
export function compareSheet(truth: PrintedProtocol, reading: SheetReading, form: SheetForm): Comparison {
  const wanted = expected(truth, form);
  const { protocol } = reading;
  const doubted = reading.doubts.map((one) => one.at);
  // One note names all parts that the sheet does not print: it tells of what is missing, not of what is wrong.
  const absent = reading.evidence.some((one) => one.startsWith('not printed'));
  const result = { right: 0, wrongDoubted: 0, silent: [] as string[] };
  const covered = (path: string): boolean =>
    doubted.some(
      (at) => path === at || path.startsWith(`${at}.`) || path.startsWith(`${at}[`) || coversColumn(at, path),
    );
  const tell = (isRight: boolean, isDoubted: boolean, message: string): void => {
    if (isRight) result.right++;
    else if (isDoubted) result.wrongDoubted++;
    else result.silent.push(message);
  };
  const leaves = (given: unknown, got: unknown, path: string): void => {
    const [a, b] = [flat(given, path), flat(got, path)];
    for (const [at, value] of a)
      tell(
        b.get(at) === value,
        covered(at) || (absent && b.get(at) === undefined),
        `${at}: ${String(value)} read as ${String(b.get(at))}`,
      );
    for (const [at, value] of b) {
      if (!a.has(at) && value !== '' && value !== false && value !== null)
        tell(false, covered(at), `${at}: nothing read as ${String(value)}`);
    }
  };
  const rows = (name: 'elements' | 'components', sum: 'tes' | 'pcs'): void => {
    const got = protocol[name] ?? [];
    const pairs = matched(wanted[name], got);
    // A whole row too few or too many is found if its sum, its number or the table is in doubt.
    const told =
      covered(sum) ||
      doubted.some((at) => at === name || at === 'total' || (at.startsWith(`${name}[`) && at.endsWith('.no')));
    for (const [i, j] of pairs) {
      if (i === null || j === null)
        tell(
          false,
          told || (absent && j === null) || (j !== null && covered(`${name}[${j}]`)),
          `${name}: ${i === null ? 'a row too many' : `row ${i} missing`}`,
        );
      else leaves(wanted[name][i], got[j], `${name}[${j}]`);
    }
  };
  rows('elements', 'tes');
  rows('components', 'pcs');
  leaves({ ...wanted, elements: [], components: [] }, { ...protocol, elements: [], components: [] }, '');
  return result;
}

/** Pairs of indices: rows that say the same first, then those in the same place. */
function matched(wanted: readonly object[], got: readonly object[]): [number | null, number | null][] {
  const pairs: [number | null, number | null][] = [];
  const open = new Set(got.map((_, j) => j));
  const rest: number[] = [];
  const key = (row: object): string =>
    ['code', 'name', 'score', 'base']
      .map((name) => String(Object.entries(row).find(([field]) => field === name)?.[1]))
      .join('|');
  wanted.forEach((row, i) => {
    const j = [...open].find((one) => got[one] !== undefined && key(got[one]) === key(row));
    if (j === undefined) rest.push(i);
    else {
      open.delete(j);
      pairs.push([i, j]);
    }
  });
  for (const i of rest) {
    const j = open.has(i) ? i : null;
    if (j !== null) open.delete(j);
    pairs.push([i, j]);
  }
  for (const j of open) pairs.push([null, j]);
  return pairs;
}

/** `elements.goe`: a whole column is missing. */
const coversColumn = (at: string, path: string): boolean => {
  const [table, column] = at.split('.');
  return (
    column !== undefined &&
    table !== undefined &&
    !table.includes('[') &&
    path.startsWith(`${table}[`) &&
    path.includes(`].${column}`)
  );
};

function expected(
  truth: PrintedProtocol,
  form: SheetForm,
): Readonly<Record<string, unknown>> & { elements: object[]; components: object[] } {
  const sum =
    typeof truth.deductions === 'number'
      ? truth.deductions
      : truth.deductions.reduce((all, one) => all + one.points, 0);
  return {
    season: truth.season,
    category: truth.category,
    segment: truth.segment,
    competition: 'Harbour Lights Trophy',
    skater: truth.skater,
    rank: truth.rank,
    startNumber: truth.startNumber,
    elements: truth.elements.map((one) => ({
      ...(form.columns.includes('no') ? { no: one.no } : {}),
      code: one.code,
      ...(form.columns.includes('info') && !(form.letters === 'info' && one.feedback !== undefined) && one.info !== ''
        ? { info: one.info }
        : {}),
      ...(one.feedback === undefined ? {} : { feedback: one.feedback }),
      half: one.half,
      base: one.base,
      goe: one.goe,
      marks: one.marks,
      score: one.score,
    })),
    components: [...truth.components],
    deductions:
      form.itemised && typeof truth.deductions !== 'number' && truth.deductions.length > 0
        ? truth.deductions
        : sum === 0
          ? 0
          : sum,
    ...(truth.bonus === undefined ? {} : { bonus: truth.bonus }),
    tes: truth.tes,
    pcs: truth.pcs,
    total: truth.total,
  };
}

/** Leaves of a value by path. */
type Leaf = string | number | boolean | null | undefined;

export function flat(value: unknown, path = '', into = new Map<string, Leaf>()): Map<string, Leaf> {
  if (Array.isArray(value)) value.forEach((one, i) => flat(one, `${path}[${i}]`, into));
  else if (typeof value === 'object' && value !== null) {
    for (const [key, one] of Object.entries(value)) flat(one, path === '' ? key : `${path}.${key}`, into);
  } else into.set(path, value as Leaf);
  return into;
}
