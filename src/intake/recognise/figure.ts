/** A number as a sheet prints it. */
export interface Figure {
  /** Integer hundredths: `7.25`, `7,25` are 725, `-1` is -100. */
  readonly value: number;
  /** Digits behind the point or comma, 0 to 2. */
  readonly decimals: number;
  /** Printed in an unusual way for a figure (`.25`, `7.`): part of it may be missing. */
  readonly maimed: boolean;
}

const MINUS = new Set([0x2d, 0x2212, 0x2013, 0x2012, 0xfe63, 0xff0d]);
const PLUS = 0x2b;
const isDigit = (code: number): boolean => code >= 0x30 && code <= 0x39;
/** Digits before the point: totals of three figures are the largest on a sheet. */
const MAX_WHOLE = 4;

/**
 * Reads a figure with decimal point or comma and any minus sign; null for everything else (dates,
 * times, words, more than two decimals). Hand-written because every word of a sheet passes here.
 */
export function readFigure(text: string): Figure | null {
  let at = 0;
  const first = text.charCodeAt(0);
  const negative = MINUS.has(first);
  if (negative || first === PLUS) at++;
  let value = 0;
  const start = at;
  for (; isDigit(text.charCodeAt(at)); at++) value = value * 10 + text.charCodeAt(at) - 0x30;
  const whole = at - start;
  if (whole > MAX_WHOLE) return null;
  if (at === text.length) return whole === 0 ? null : figure(negative, value * 100, 0, false);
  const point = text.charCodeAt(at++);
  if (point !== 0x2e && point !== 0x2c) return null;
  const from = at;
  for (; isDigit(text.charCodeAt(at)); at++) value = value * 10 + text.charCodeAt(at) - 0x30;
  const decimals = at - from;
  if (at !== text.length || decimals > 2 || whole + decimals === 0) return null;
  return figure(
    negative,
    value * (decimals === 2 ? 1 : decimals === 1 ? 10 : 100),
    decimals,
    whole === 0 || decimals === 0,
  );
}

const figure = (negative: boolean, value: number, decimals: number, maimed: boolean): Figure => ({
  value: negative && value !== 0 ? -value : value,
  decimals,
  maimed,
});

/** Hundredths as points for messages and forms: 725 is 7.25. */
export const toPoints = (value: number): number => value / 100;

/** Hundredths as text: `7.25`. */
export const pointsText = (value: number): string => (value / 100).toFixed(2);
