import { capital } from './numbers.ts';
import type { RuleCitation } from '../segment-rules.ts';
import type { Verdict, VerdictStatus } from './types.ts';

const ASK = 'unknown: check your chart. As far as known: ';

/** The sentence of a verdict without the warning, for a list that carries it once. */
export const withoutWarning = ({ message }: Verdict): string =>
  message.startsWith(ASK) ? message.slice(ASK.length) : message;

/** What a rule was found to be before the mark of its source is asked. */
export interface Finding {
  readonly rule: string;
  readonly status: VerdictStatus;
  readonly elements?: readonly number[];
  /** The rule in plain words, without a full stop. */
  readonly says: string;
  /** What happens on the day, without a full stop. */
  readonly consequence?: string;
  readonly cost?: number | null;
}

/** A weak recollection never makes a verdict: it is said, and the coach's own chart decides. */
export function verdict(finding: Finding, citation: RuleCitation): Verdict {
  const { rule, elements = [], says, consequence } = finding;
  const status = citation.weak === true && finding.status !== 'unknown' ? 'unknown' : finding.status;
  const sentences = [says, ...(consequence === undefined ? [] : [capital(consequence)])];
  const message = `${status === 'unknown' ? ASK : ''}${sentences.join('. ')}.`;
  const cost = status === 'unknown' ? null : status === 'met' ? 0 : (finding.cost ?? null);
  const leaning = finding.status !== 'unknown' && status === 'unknown' ? { asFarAsKnown: finding.status } : {};
  return { rule, citation, status, ...leaning, elements, message, cost };
}
