import type { Doubt } from './reading.ts';

/** Collects the doubts of one sheet and counts what its equations hold. */
export interface Verdict {
  readonly doubts: Doubt[];
  /** Equations that could be tested, and those that closed. */
  tested: number;
  closed: number;
  /** Figures read. */
  figures: number;
}

export const newVerdict = (): Verdict => ({ doubts: [], tested: 0, closed: 0, figures: 0 });

/** Adds a doubt; a second one at the same place adds its alternatives and its reason. */
export function doubt(
  verdict: Verdict,
  at: string,
  read: unknown,
  alternatives: readonly unknown[],
  why: string,
): void {
  const i = verdict.doubts.findIndex((one) => one.at === at);
  const before = verdict.doubts[i];
  const distinct = alternatives.filter((one) => one !== read && one !== null);
  if (before === undefined) {
    verdict.doubts.push({ at, read, alternatives: [...new Set(distinct)], why });
    return;
  }
  const why2 = before.why.includes(why) ? before.why : `${before.why} ${why}`;
  verdict.doubts[i] = { ...before, alternatives: [...new Set([...before.alternatives, ...distinct])], why: why2 };
}

/** Counts an equation; returns whether it closed. */
export function tested(verdict: Verdict, closes: boolean): boolean {
  verdict.tested++;
  if (closes) verdict.closed++;
  return closes;
}

/**
 * Share of the equations that close, lowered by the share of figures in doubt. Without any equation
 * nothing is held: a quarter at most.
 */
export function confidenceOf(verdict: Verdict): number {
  const held = verdict.tested === 0 ? 0.25 : verdict.closed / verdict.tested;
  const doubted = Math.min(1, verdict.doubts.length / Math.max(1, verdict.figures / 10));
  return Math.round(1000 * held * (1 - 0.5 * doubted)) / 1000;
}
