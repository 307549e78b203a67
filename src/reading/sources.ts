import type { Citation, GoeReduction, Rulebook, ValueRow } from '../rulebook/index.ts';
import { amount, grades } from './numbers.ts';

/** A rule in words, and where its figures come from. */
export interface RuleText {
  readonly text: string;
  readonly sources: readonly Citation[];
}

export const ruleText = (text: string, ...sources: readonly Citation[]): RuleText => ({ text, sources });

/** Several rules as one, without empty ones. */
export const joined = (rules: readonly RuleText[]): RuleText => ({
  text: rules.flatMap((one) => (one.text === '' ? [] : [one.text])).join(' '),
  sources: rules.flatMap((one) => one.sources),
});

/** Small letter after a figure: m from memory, p provisional, y your own entry; none: published and read. */
export function trustMark(citation: Citation): '' | 'ᵐ' | 'ᵖ' | 'ʸ' {
  if (citation.status === 'local') return 'ʸ';
  if (citation.provisional) return 'ᵖ';
  return citation.status === 'memory' ? 'ᵐ' : '';
}

/** Source and mark of a value in words; a mark is never raised. */
export function cited(citation: Citation): string {
  const marks = [
    ...(citation.status === 'memory' && !/memory|practice|inferred/i.test(citation.source) ? ['from memory'] : []),
    ...(citation.status === 'local' ? ['your own entry'] : []),
    ...(citation.provisional ? ['provisional'] : []),
  ];
  return [citation.source, ...marks].join(', ');
}

/** `3Lz< is worth 4.72ᵐ.`; a row whose value is not known says so. */
export function rowRule(row: ValueRow | null, code: string): RuleText {
  if (row?.base == null) return ruleText(`${code}: its value is not known.`);
  return ruleText(`${code} is worth ${amount(row.base)}${trustMark(row.citation)}.`, row.citation);
}

/** What the season's list asks judges to take off for these calls. */
export function reductionRule(signs: readonly string[], rulebook: Rulebook): RuleText {
  const found = [...new Set(signs)].map((sign) => rulebook.reductions().find((one) => one.call === sign));
  const known = found.filter((one) => one !== undefined);
  if (known.length === 0) return ruleText(`How many grades judges must take off is not known for ${rulebook.season}.`);
  return joined(known.map(reductionSentence));
}

function reductionSentence(one: GoeReduction): RuleText {
  const range = one.min === one.max ? grades(one.min) : `${grades(one.min)} to ${grades(one.max)}`;
  const name = one.call === 'fall' ? 'A fall' : `The call ${one.call}`;
  return ruleText(`${name} obliges judges to take ${range} grades off${trustMark(one.citation)}.`, one.citation);
}
