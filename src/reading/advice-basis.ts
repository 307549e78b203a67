import type { ChosenRules } from '../rulebook/index.ts';
import type { Protocol } from '../scoring/index.ts';
import type { Line } from './lines.ts';
import type { FeedbackEntry, LedgerEntry, ReferenceKind } from './types.ts';

/** What advice is made from. */
export interface AdviceBasis {
  readonly protocol: Protocol;
  readonly rules: ChosenRules;
  readonly kind: ReferenceKind;
  readonly lines: readonly Line[];
  readonly entries: readonly LedgerEntry[];
  readonly feedback: readonly FeedbackEntry[];
}

/** The line of the program that an entry speaks of; null for the whole sheet. */
export function lineOf(entry: LedgerEntry, lines: readonly Line[]): Line | null {
  const at = entry.evidence[0] ?? '';
  const place = /^elements\[(\d+)\]/.exec(at)?.[1];
  const planned = /^layout\.elements\[(\d+)\]/.exec(at)?.[1];
  return (
    lines.find((line) => {
      if (line.kind === 'missing') return planned !== undefined && line.planned.planned === Number(planned);
      return line.kind !== 'unreadable' && place !== undefined && line.skated.index === Number(place);
    }) ?? null
  );
}
