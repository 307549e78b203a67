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

/** Every figure of the truth against the reading. */
export function compareSheet(truth: PrintedProtocol, reading: SheetReading, form: SheetForm): Comparison {
  const given = flat(expected(truth, form));
  const read = flat(reading.protocol);
  const doubted = reading.doubts.map((one) => one.at);
  const isDoubted = (path: string): boolean => doubted.some((at) => path === at || path.startsWith(`${at}.`) || path.startsWith(`${at}[`) || coversColumn(at, path));
  let right = 0;
  let wrongDoubted = 0;
  const silent: string[] = [];
  for (const [path, value] of given) {
    const got = read.get(path);
    if (got === value) right++;
    else if (isDoubted(path)) wrongDoubted++;
    else silent.push(`${path}: ${String(value)} read as ${String(got)}`);
  }
  for (const [path, value] of read) {
    if (given.has(path) || value === '' || value === false || value === null) continue;
    if (isDoubted(path)) wrongDoubted++;
    else silent.push(`${path}: nothing read as ${String(value)}`);
  }
  return { right, wrongDoubted, silent };
}

/** `elements.goe`: a whole column is missing. */
const coversColumn = (at: string, path: string): boolean => {
  const [table, column] = at.split('.');
  return column !== undefined && table !== undefined && !table.includes('[') && path.startsWith(`${table}[`) && path.includes(`].${column}`);
};

function expected(truth: PrintedProtocol, form: SheetForm): object {
  const sum = typeof truth.deductions === 'number' ? truth.deductions : truth.deductions.reduce((all, one) => all + one.points, 0);
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
      ...(form.columns.includes('info') && !(form.letters === 'info' && one.feedback !== undefined) && one.info !== '' ? { info: one.info } : {}),
      ...(one.feedback === undefined ? {} : { feedback: one.feedback }),
      half: one.half,
      base: one.base,
      goe: one.goe,
      marks: one.marks,
      score: one.score,
    })),
    components: truth.components,
    deductions: form.itemised && typeof truth.deductions !== 'number' && truth.deductions.length > 0 ? truth.deductions : sum === 0 ? 0 : sum,
    ...(truth.bonus === undefined ? {} : { bonus: truth.bonus }),
    tes: truth.tes,
    pcs: truth.pcs,
    total: truth.total,
  };
}

/** Leaves of a value by path. */
export function flat(value: unknown, path = '', into = new Map<string, unknown>()): Map<string, unknown> {
  if (Array.isArray(value)) value.forEach((one, i) => flat(one, `${path}[${i}]`, into));
  else if (typeof value === 'object' && value !== null) {
    for (const [key, one] of Object.entries(value)) flat(one, path === '' ? key : `${path}.${key}`, into);
  } else into.set(path, value);
  return into;
}
