import type { SheetReading } from '../../src/intake/index.ts';
import { formatCode, parseCode } from '../../src/notation/index.ts';
import type { SheetProtocol } from './protocols.ts';

/** How a reading compares with the protocol that was printed. */
export interface Comparison {
  right: number;
  /** Wrong or missing, and a doubt lies on it or on what it is part of. */
  doubted: number;
  /** Wrong or missing without a doubt. */
  silent: string[];
}

export const noComparison = (): Comparison => ({ right: 0, doubted: 0, silent: [] });

/** Every figure, code, call, letter and name of a printed protocol against its reading. */
export function compareReading(printed: SheetProtocol, reading: SheetReading): Comparison {
  const want = leaves(comparable(printed));
  const got = leaves(comparable(reading.protocol as unknown as SheetProtocol));
  const result = noComparison();
  for (const path of new Set([...want.keys(), ...got.keys()])) {
    const [expected, read] = [want.get(path) ?? null, got.get(path) ?? null];
    if (expected === read) result.right += expected === null ? 0 : 1;
    else if (reading.doubts.some((doubt) => covers(doubt.at, path))) result.doubted += 1;
    else result.silent.push(`${path}: ${JSON.stringify(expected)} read as ${JSON.stringify(read)}`);
  }
  return result;
}

/** What a sheet prints, in one form for both sides; calls count wherever they stand. */
function comparable(protocol: SheetProtocol): object {
  const {
    skater,
    rank,
    startNumber,
    category,
    segment,
    season,
    tes,
    pcs,
    total,
    bonus,
    elements,
    components,
    deductions,
  } = protocol;
  return {
    skater,
    rank,
    startNumber,
    category,
    segment,
    season,
    tes,
    pcs,
    total,
    bonus,
    deductions: deductionSum(deductions),
    elements: elements.map((element) => ({
      code: canonical(element.code),
      info: element.info ? element.info : null,
      feedback: element.feedback ?? null,
      half: element.half,
      base: element.base,
      goe: element.goe,
      marks: element.marks,
      score: element.score,
    })),
    components: components.map(({ factor, marks, score }) => ({ factor, marks, score })),
  };
}

/** The sum: the items are compared by it, since a sheet may print them in other words. */
const deductionSum = (deductions: SheetProtocol['deductions']): number =>
  typeof deductions === 'object'
    ? deductions.reduce((sum, item) => sum + Math.round(item.points * 100), 0) / 100
    : deductions;

function canonical(code: string): string {
  const parsed = parseCode(code);
  return parsed.ok ? formatCode(parsed.value) : code;
}

function leaves(value: unknown, path = '', into = new Map<string, unknown>()): Map<string, unknown> {
  if (Array.isArray(value)) value.forEach((one, i) => leaves(one, `${path}[${i}]`, into));
  else if (typeof value === 'object' && value !== null) {
    for (const [key, one] of Object.entries(value)) leaves(one, path === '' ? key : `${path}.${key}`, into);
  } else into.set(path, value === '' ? null : value);
  return into;
}

/** A doubt lies on a figure, on its row, on its table, or on its column (`elements.goe`). */
function covers(at: string, path: string): boolean {
  if (path === at || path.startsWith(`${at}.`) || path.startsWith(`${at}[`)) return true;
  const [table = '', column] = at.split('.');
  return column !== undefined && !table.includes('[') && path.startsWith(`${table}[`) && path.includes(`].${column}`);
}
