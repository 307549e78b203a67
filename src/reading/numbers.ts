import type { Hundredths } from '../rulebook/index.ts';

/** U+2212, as wide as a plus: differences are always signed. */
const MINUS = '−';

/** Points as printed on a sheet, two decimals: 57.35. */
export const points = (value: Hundredths): string => `${value < 0 ? MINUS : ''}${(Math.abs(value) / 100).toFixed(2)}`;

/** A difference, always signed: +0.86, −1.18, ±0.00. */
export function signed(value: Hundredths): string {
  if (value === 0) return '±0.00';
  return `${value > 0 ? '+' : MINUS}${(Math.abs(value) / 100).toFixed(2)}`;
}

/** An amount without sign: 1.18. */
export const amount = (value: Hundredths): string => (Math.abs(value) / 100).toFixed(2);

/** A panel grade, one decimal, signed: +1.0, −0.5, 0.0. */
export function grade(value: number): string {
  const tenths = Math.round(Math.abs(value) * 10) / 10;
  if (tenths === 0) return '0.0';
  return `${value > 0 ? '+' : MINUS}${tenths.toFixed(1)}`;
}

/** A number of grades without needless zeros: 2, 1.5, 0.67. */
export const grades = (value: number): string => String(Math.round(value * 100) / 100);

/** An estimate for a young reader: tenths below two points, else halves. */
export function about(value: Hundredths): string {
  const points = Math.abs(value) / 100;
  const rounded = points < 2 ? Math.round(points * 10) / 10 : Math.round(points * 2) / 2;
  const text = String(rounded);
  return `about ${text} ${rounded === 1 ? 'point' : 'points'}`;
}

const MONTHS = 'January February March April May June July August September October November December'.split(' ');

/** 2023-10-14 as 14 October 2023; anything else stays as it is. */
export function dateInWords(date: string): string {
  const [year, month, day] = date.split('-').map(Number);
  const name = MONTHS[(month ?? 0) - 1];
  return name === undefined || year === undefined || !day ? date : `${day} ${name} ${year}`;
}
