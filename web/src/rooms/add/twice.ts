import type { ProtocolRecord } from '../../data/api.ts';

type Form = Readonly<Record<string, unknown>>;

/** A sheet of hers that is kept already: the very figures, or another sheet of the same day and segment. */
export interface Twice {
  readonly kept: ProtocolRecord;
  readonly figures: 'the same' | 'others';
}

/**
 * The kept sheet that a new one repeats: same segment, no other day, and the same figures; else one of
 * the same day and segment with other figures, as a corrected sheet is.
 * @param kept the skater's own protocols.
 */
export function keptAlready(form: Form, kept: readonly ProtocolRecord[]): Twice | null {
  const segment = form.segment === 'short' ? 'short' : 'free';
  const own = kept.filter((k) => k.segment === segment && !k.practice);
  const same = own.find((k) => !differ(form.date, k.form.date) && sameFigures(form, k.form));
  if (same !== undefined) return { kept: same, figures: 'the same' };
  const others = own.find((k) => typeof form.date === 'string' && form.date === k.date);
  return others === undefined ? null : { kept: others, figures: 'others' };
}

/** Two things that are both said and are not the same. */
const differ = (a: unknown, b: unknown): boolean => typeof a === 'string' && typeof b === 'string' && a !== b;

/** Whether two sheets print the same codes, scores, sums and total. */
export const sameFigures = (a: Form, b: Form): boolean => figuresOf(a) === figuresOf(b);

function figuresOf(form: Form): string {
  const elements = Array.isArray(form.elements) ? (form.elements as Form[]) : [];
  const of = ({ code, base, goe, score, marks }: Form) => [code, base, goe, score, marks].map(plain);
  const components = Array.isArray(form.components) ? (form.components as Form[]) : [];
  return JSON.stringify([
    elements.map(of),
    components.map(({ factor, marks, score }) => [factor, marks, score].map(plain)),
    [form.tes, form.pcs, form.total].map(plain),
  ]);
}

/** What is not printed is the same as what is absent. */
const plain = (value: unknown): unknown => value ?? null;
