import type { Form } from './forms.ts';

type Print = Pick<Form, 'decimal' | 'minus' | 'missing'>;

/** Points with two decimals in the form's own signs. */
export const points = (value: number, form: Print): string => signed(value.toFixed(2), form).replace('.', form.decimal);

/** A judge's grade, or the form's sign for none. */
export const grade = (mark: number | null, form: Print): string =>
  mark === null ? form.missing : signed(String(mark), form);

/** A component mark in quarter steps with two decimals. */
export const componentMark = (mark: number | null, form: Print): string =>
  mark === null ? form.missing : points(mark, form);

const signed = (text: string, form: Print): string => (text.startsWith('-') ? form.minus + text.slice(1) : text);
