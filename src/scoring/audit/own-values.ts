import type { ChosenRules, Citation, Rulebook } from '../../rulebook/index.ts';
import type { Protocol } from '../protocol.ts';
import type { MeasuredElement } from './measure.ts';
import type { Rows } from './panel-way.ts';

/**
 * Values of the coach's own overlay behind a figure, by the title of the overlay; null: the figure rests
 * on the shipped rules. A referee has her own documents: what differs from a coach's own value alone is no
 * question for her.
 */
export type OwnValue = string | null;

const ofCitation = ({ status, source }: Citation): OwnValue => (status === 'local' ? source : null);

export const ownAt = (book: Rulebook, path: string): OwnValue => ofCitation(book.citation(path));

export const ownFactor = (rules: ChosenRules): OwnValue =>
  ownAt(rules.values, `components.${rules.category}.${rules.segment}.factor`);

/** The component sum: a factor that the sheet does not print is the rulebook's. */
export const ownComponents = (rows: Rows, rules: ChosenRules): OwnValue =>
  rows.components.some((row) => row.printed.factor === null) ? ownFactor(rules) : null;

/** The total, where no printed component sum stands between it and the factor. */
export const ownTotal = (protocol: Protocol, rows: Rows, rules: ChosenRules): OwnValue =>
  protocol.pcs === null ? ownComponents(rows, rules) : null;

/** The base value: any of its rows. */
export function ownBase({ value }: MeasuredElement): OwnValue {
  const rows = [...(value?.jumps.map((jump) => jump.row) ?? []), value?.row ?? null];
  return rows.map((row) => (row === null ? null : ofCitation(row.citation))).find((own) => own !== null) ?? null;
}

/** The grade of execution: the row that its steps come from. */
export const ownGrade = ({ value }: MeasuredElement): OwnValue => (value?.row ? ofCitation(value.row.citation) : null);

/** What a message adds where a figure rests on a value of one's own. */
export const ownWords = (own: string): string =>
  ` That rests on your own value (${own}), not on a published rule: check your file first.`;
