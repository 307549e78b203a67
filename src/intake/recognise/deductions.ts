import { LABELS } from './words.ts';

/** One deduction line as printed; points of the whole line, 0 or less. */
export interface PrintedDeduction {
  readonly reason: string;
  readonly count: number | null;
  readonly points: number;
  /** The sign was printed positive. */
  readonly positive: boolean;
}

const ITEM =
  /(\p{L}[\p{L} /.'-]{0,40}?)\s{0,6}:?\s{0,6}(?:\((\d{1,2})\)\s{0,6}|(\d{1,2})\s?[x×]\s?)?([+\-\u2212\u2013]?\d{1,2}[.,]\d{1,2})(?![\d.,])\s{0,6}(?:\(\s?(\d{1,2})\s?\))?/gu;

const REASONS: readonly (readonly [RegExp, string])[] = [
  [/fall|sturz|stürze|chute|cadut|caíd|kaatu|pád|upad|паден|転倒|넘어/iu, 'fall'],
  [/time|zeit|temps|tempo|tiempo|aika|\btid|czas|čas|время/iu, 'time'],
  [/costume|prop|kostüm|puku|kostym|costum/iu, 'costume'],
  [/illegal|verboten|interdit|illega|kielle/iu, 'illegal'],
  [/interrupt|unterbrech|interrupc|interruz|keskeyt/iu, 'interruption'],
  [/late|start|verspät/iu, 'late-start'],
  [/music|musik|musique|vocal/iu, 'music'],
];

export interface DeductionLines {
  readonly items: readonly PrintedDeduction[];
  /** Figures labelled as the sum of deductions. */
  readonly totals: readonly number[];
}

const NOTHING: DeductionLines = { items: [], totals: [] };

/** What a line says about deductions; nothing if it has no word for them. */
export function readDeductions(text: string): DeductionLines {
  const items: PrintedDeduction[] = [];
  const totals: number[] = [];
  if (!/\d[.,]\d/.test(text)) return NOTHING;
  for (const match of text.slice(0, 240).matchAll(ITEM)) {
    const [, label = '', before, times, number = '', after] = match;
    const value = pointsOf(number);
    const count = before ?? times ?? after;
    const reason = REASONS.find(([pattern]) => pattern.test(label))?.[1];
    const isTotal = LABELS.find(([pattern]) => pattern.test(label))?.[1] === 'deductions' && reason === undefined;
    if (isTotal) totals.push(-Math.abs(value));
    else if (reason !== undefined) {
      const each = times === undefined ? 1 : Number(times);
      items.push({
        reason,
        count: count === undefined ? null : Number(count),
        points: -Math.abs(value) * each,
        positive: value > 0,
      });
    }
  }
  return { items, totals };
}

/** `-1.00`, `−1,5` in hundredths. */
function pointsOf(text: string): number {
  const [whole = '0', part = ''] = text.replace(/^[+\-\u2212\u2013]/, '').split(/[.,]/);
  const value = Number(whole) * 100 + Number(part.padEnd(2, '0'));
  return /^[-\u2212\u2013]/.test(text) ? -value : value;
}
