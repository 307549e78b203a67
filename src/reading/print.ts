import { printCoach } from './print-coach.ts';
import { printSkater } from './print-skater.ts';
import { COLOUR, PLAIN } from './text.ts';
import type { Reading, Voice } from './types.ts';

export interface PrintOptions {
  readonly voice: Voice;
  /** Columns; at most 80 are used, at least 40. */
  readonly width?: number | undefined;
  /** Only where a terminal shows it; every sign also stands in words. */
  readonly colour?: boolean | undefined;
}

const WIDEST = 80;
const NARROWEST = 40;

/** The reading as text for people: grouped by cause, what came on top first, no line over 80 columns. */
export function printReading(reading: Reading, { voice, width = WIDEST, colour = false }: PrintOptions): string {
  const columns = Math.min(WIDEST, Math.max(NARROWEST, width));
  const ink = colour ? COLOUR : PLAIN;
  const lines = voice === 'skater' ? printSkater(reading, columns, ink) : printCoach(reading, columns, ink);
  return lines.map((line) => line.trimEnd()).join('\n');
}
