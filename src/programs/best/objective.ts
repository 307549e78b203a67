import { fail, ok, type Result } from '../../notation/index.ts';
import type { Hundredths } from '../../rulebook/index.ts';

/** What a layout is chosen for; always a number to be made as large as possible. */
export type Objective =
  | { readonly kind: 'expected' }
  /** The chance of `target` hundredths or more. */
  | { readonly kind: 'chance'; readonly target: Hundredths }
  /** The smallest score whose cumulative probability is at least `level`. */
  | { readonly kind: 'quantile'; readonly level: number };

const wrong = (text: string) =>
  fail({
    code: 'programs.objective',
    at: '--objective',
    found: `“${text}”`,
    expected: 'expected, chance:POINTS such as chance:112.5, or quantile:LEVEL such as quantile:0.1',
    advice: 'Points are the total of the segment; a level lies between 0 and 1.',
  });

/** Reads `expected`, `chance:112.5`, `quantile:0.1`. */
export function parseObjective(text: string): Result<Objective> {
  const [kind, figure, ...more] = text.trim().toLowerCase().split(':');
  if (more.length > 0) return wrong(text);
  if (kind === 'expected' && figure === undefined) return ok({ kind });
  const value = figure === undefined || figure.trim() === '' ? NaN : Number(figure);
  if (!Number.isFinite(value)) return wrong(text);
  if (kind === 'chance') return ok({ kind, target: Math.ceil(value * 100 - 1e-6) });
  if (kind === 'quantile' && value > 0 && value < 1) return ok({ kind, level: value });
  return wrong(text);
}
