export { typed } from './typed.ts';

/**
 * Numbers as the look prescribes: real minus, differences always signed, decimal sign by locale.
 * Hundredths are facts, tenths are estimates.
 */
const locale = () => (typeof navigator === 'undefined' ? 'en' : navigator.language);

/** Making a format takes longer than drawing a row, so each is made once. */
const formats = new Map<string, Intl.NumberFormat>();

function format(value: number, least: number, most: number): string {
  const key = `${locale()} ${least} ${most}`;
  const options = { minimumFractionDigits: least, maximumFractionDigits: most };
  const made = formats.get(key) ?? new Intl.NumberFormat(locale(), options);
  formats.set(key, made);
  return made.format(value);
}

const decimals = (value: number, digits: number): string => format(value, digits, digits);

/** 5735 → 57.35 */
export const points = (hundredths: number): string => minus(decimals(hundredths / 100, 2));

/** −118 → −1.18, 86 → +0.86 */
export const signed = (hundredths: number): string =>
  hundredths < 0 ? `−${decimals(-hundredths / 100, 2)}` : `+${decimals(hundredths / 100, 2)}`;

/** An estimate: tenths at most. */
export const tenths = (value: number): string => minus(decimals(value, 1));

/** A grade: −1.8, 0.0, +0.5. */
export function grade(value: number): string {
  const size = decimals(Math.abs(value), 1);
  if (Math.abs(value) < 0.05) return size;
  return value < 0 ? `−${size}` : `+${size}`;
}

const minus = (text: string): string => text.replace(/^-/, '−');

/** 105 seconds → 1:45 */
export { clock } from '../../../src/notation/index.ts';

/** A chance in days of twenty; the exact value stands under "why?". */
export function days(p: number): string {
  const of20 = Math.round(p * 20);
  if (of20 < 1) return 'hardly ever';
  if (of20 > 19) return 'nearly always';
  return `on about ${of20} of 20 days`;
}

/** 2023-10-14 → Sat, 14 October 2023, in the reader's language. */
export const day = (iso: string): string =>
  new Date(`${iso}T12:00:00`).toLocaleDateString(locale(), {
    weekday: 'short',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
  });

export const shortDay = (iso: string): string =>
  new Date(`${iso}T12:00:00`).toLocaleDateString(locale(), { day: 'numeric', month: 'short' });

/** A date in a list: 14 October 2023. */
export const longDay = (iso: string): string =>
  new Date(`${iso}T12:00:00`).toLocaleDateString(locale(), { day: 'numeric', month: 'long', year: 'numeric' });

export const weekday = (iso: string): string =>
  new Date(`${iso}T12:00:00`).toLocaleDateString(locale(), { weekday: 'long' });

/** A share as a decimal, for “why?” alone: 0.385 */
export const exact = (p: number): string => decimals(p, 3);

/** A whole number or one with decimals as typed, in the reader's form. */
export const plain = (value: number): string => format(value, 0, 2);
