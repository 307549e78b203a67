import type { PanelRule, Protocol } from '../scoring/index.ts';
import { parseCode, type Element } from '../notation/index.ts';
import { levelNumber } from '../levels/index.ts';
import { toNumber } from './fraction.ts';
import { meanGrade, present } from './grades.ts';
import { grade } from './numbers.ts';
import { capital, inWords } from './spoken.ts';
import type { FieldLine } from './types.ts';

/** Fewer skaters than this would not be anonymous. */
export const SMALLEST_FIELD = 10;

/** What one sheet brings to the field: one number per family and measure. */
type Sheet = ReadonlyMap<string, number>;

/** The event's skaters as numbers without names. */
export interface Field {
  readonly sheets: readonly Sheet[];
}

const FAMILIES = ['jumps', 'spins', 'step sequence'] as const;

/** Sheets of one segment of one event, anonymous; null below ten skaters. */
export function fieldOf(protocols: readonly Protocol[], panel: PanelRule): Field | null {
  if (protocols.length < SMALLEST_FIELD) return null;
  return { sheets: protocols.map((protocol) => sheetOf(protocol, panel)) };
}

function sheetOf(protocol: Protocol, panel: PanelRule): Sheet {
  const elements = protocol.elements.flatMap((printed) => {
    const read = parseCode(printed.code);
    return read.ok ? [{ element: read.value.element, mean: meanGrade(printed.marks, panel) }] : [];
  });
  const sheet = new Map<string, number>();
  for (const family of FAMILIES) {
    const own = elements.filter(({ element }) => familyOf(element) === family);
    put(
      sheet,
      `${family}/grade`,
      own.flatMap(({ mean }) => (mean === null ? [] : [toNumber(mean)])),
    );
    put(
      sheet,
      `${family}/level`,
      own.flatMap(({ element }) => levelsOf(element)),
    );
  }
  const combinations = elements.flatMap(({ element }) =>
    element.kind === 'spin' && element.position === 'Co' ? [element.v > 0 ? 1 : 0] : [],
  );
  if (combinations.length > 0) sheet.set('combination spin/V', Math.max(...combinations));
  put(
    sheet,
    'components/mark',
    protocol.components.flatMap((one) => present(one.marks).map((mark) => mark / 100)),
  );
  return sheet;
}

function put(sheet: Map<string, number>, key: string, values: readonly number[]): void {
  if (values.length > 0) sheet.set(key, values.reduce((sum, value) => sum + value, 0) / values.length);
}

function familyOf(element: Element): string {
  if (element.kind === 'jump') return 'jumps';
  if (element.kind === 'spin') return 'spins';
  return element.kind === 'steps' ? 'step sequence' : 'choreography';
}

const levelsOf = (element: Element): number[] =>
  element.kind === 'jump' || element.kind === 'choreo' || element.level === null ? [] : [levelNumber(element.level)];

const LINES = [
  ['step sequence', 'level'],
  ['step sequence', 'grade'],
  ['spins', 'level'],
  ['spins', 'grade'],
  ['combination spin', 'V'],
  ['jumps', 'grade'],
  ['components', 'mark'],
] as const;

/** Her place in the field, line by line; empty without a field. Differences below a hundredth are none. */
export function fieldLines(protocol: Protocol, field: Field | null, panel: PanelRule): FieldLine[] {
  if (field === null) return [];
  const own = sheetOf(protocol, panel);
  return LINES.flatMap(([family, measure]): FieldLine[] => {
    const key = `${family}/${measure}`;
    const hers = own.get(key);
    const all = field.sheets.flatMap((sheet) => sheet.get(key) ?? []);
    if (hers === undefined || all.length < SMALLEST_FIELD || (measure === 'V' && hers === 0)) return [];
    const above = all.filter((one) => one > hers + 0.005).length;
    const equal = Math.max(0, all.filter((one) => Math.abs(one - hers) <= 0.005).length - 1);
    const text = lineText(family, measure, hers, all.length, above, equal);
    return [{ family, measure, skaters: all.length, above, equal, text }];
  });
}

function lineText(
  family: string,
  measure: FieldLine['measure'],
  hers: number,
  skaters: number,
  above: number,
  equal: number,
): string {
  if (measure === 'V') return `V on a combination spin: ${inWords(equal + 1)} of ${skaters} skaters had one.`;
  const own = { level: `level ${trimmedNumber(hers)}`, grade: `grade ${grade(hers)}`, mark: hers.toFixed(2) }[measure];
  const mean = family === 'step sequence' ? '' : 'mean ';
  const more = above === 0 ? 'nobody had more' : `${inWords(above)} had more`;
  const same = equal === 0 ? '' : `, ${inWords(equal)} the same`;
  return `${capital(family)}: ${mean}${own}. Of ${skaters} skaters ${more}${same}.`;
}

const trimmedNumber = (value: number): string => String(Math.round(value * 10) / 10);

/** `Judges differed by up to 2 grades here, which is usual.`; empty without two marks on an element. */
export function judgesDiffered(protocol: Protocol): string {
  const spreads = protocol.elements.flatMap(({ marks }) => {
    const there = present(marks);
    return there.length < 2 ? [] : [Math.max(...there) - Math.min(...there)];
  });
  const widest = Math.max(0, ...spreads);
  if (widest === 0) return '';
  return `Judges differed by up to ${widest} grade${widest === 1 ? '' : 's'} here, which is usual.`;
}
