import { z } from 'zod';

import { ok, type Result } from '../notation/index.ts';
import type { Hundredths } from '../rulebook/index.ts';
import {
  checkForm,
  count,
  heading,
  hundredths,
  list,
  named,
  points,
  positiveWhole,
  readHeading,
  seconds,
  text,
  toPoints,
  truth,
  whole,
  finite,
} from './form-fields.ts';
import type { Deductions, Protocol, ProtocolComponent, ProtocolElement } from './protocol.ts';

/** One skater's sheet of one segment is far below; what is above is no such sheet. */
const MOST_ROWS = 500;
const MOST_JUDGES = 50;

const mark = z.int({ error: 'a whole grade or null' }).nullable();
const componentMark = points.nullable();

const elementForm = z.object(
  {
    no: whole.nullish(),
    code: z.string({ error: 'an element code such as 3Lz+3T' }),
    info: text.nullish(),
    feedback: text.nullish(),
    half: truth.nullish(),
    start: seconds.nullish(),
    base: points.nullish(),
    goe: points.nullish(),
    marks: list(mark, MOST_JUDGES, 'grades, null where a judge has none').nullish(),
    score: points.nullish(),
  },
  { error: 'an element' },
);

const componentForm = z.object(
  {
    name: z.string({ error: 'the name of a component' }),
    factor: points.positive({ error: 'a factor above 0' }).nullish(),
    marks: list(componentMark, MOST_JUDGES, 'marks, null where a judge has none').nullish(),
    score: points.nullish(),
  },
  { error: 'a component' },
);

const deductionForm = z.object(
  { reason: text, count: count.nullish(), points },
  { error: 'a deduction with reason and points' },
);

/** The JSON form of a protocol (points as numbers); fields it does not name are allowed and ignored. */
export const protocolForm = z
  .object(
    {
      ...heading,
      competition: text.nullish(),
      order: finite.nullish(),
      rank: positiveWhole.nullish(),
      startNumber: whole.nullish(),
      elements: list(elementForm, MOST_ROWS, 'elements'),
      components: list(componentForm, MOST_ROWS, 'components').nullish(),
      deductions: z
        .union([points, list(deductionForm, MOST_ROWS, 'deductions')], {
          error: 'points (0 or less), or a list of deductions',
        })
        .nullish(),
      bonus: points.nullish(),
      tes: points.nullish(),
      pcs: points.nullish(),
      total: points.nullish(),
    },
    { error: 'a protocol as a JSON object' },
  )
  .meta({ title: 'Protocol', description: 'One skater, one segment, as printed. Points have at most two decimals.' });

export type ProtocolForm = z.infer<typeof protocolForm>;

/**
 * Reads the JSON form of a protocol into the internal value with integer hundredths. A bad value in a
 * named field is a located problem; a positive deduction is read as its negative, with a warning.
 */
export function readProtocol(value: unknown): Result<Protocol> {
  const checked = checkForm(protocolForm, value, 'protocol.form');
  return checked.ok ? ok(toProtocol(checked.value)) : checked;
}

function toProtocol(form: ProtocolForm): Protocol {
  const warnings: string[] = [];
  return {
    ...readHeading(form),
    competition: named(form.competition),
    order: form.order ?? null,
    rank: form.rank ?? null,
    startNumber: form.startNumber ?? null,
    elements: form.elements.map(toElement),
    components: (form.components ?? []).map(toComponent),
    deductions: toDeductions(form.deductions, warnings),
    bonus: hundredths(form.bonus),
    tes: hundredths(form.tes),
    pcs: hundredths(form.pcs),
    total: hundredths(form.total),
    warnings,
  };
}

const toElement = (form: z.infer<typeof elementForm>): ProtocolElement => ({
  no: form.no ?? null,
  code: form.code,
  info: form.info ?? '',
  feedback: named(form.feedback),
  half: form.half ?? false,
  start: form.start ?? null,
  base: hundredths(form.base),
  goe: hundredths(form.goe),
  marks: form.marks ?? [],
  score: hundredths(form.score),
});

const toComponent = (form: z.infer<typeof componentForm>): ProtocolComponent => ({
  name: form.name,
  factor: hundredths(form.factor),
  marks: (form.marks ?? []).map(hundredths),
  score: hundredths(form.score),
});

function toDeductions(form: ProtocolForm['deductions'], warnings: string[]): Deductions | null {
  if (form == null) return null;
  if (typeof form === 'number') return { total: negative(form, 'deductions', warnings), items: null };
  const items = form.map((item, i) => ({
    reason: item.reason,
    count: item.count ?? null,
    points: negative(item.points, `deductions[${i}].points`, warnings),
  }));
  return { total: items.reduce((sum, item) => sum + item.points, 0), items };
}

function negative(given: number, at: string, warnings: string[]): Hundredths {
  const value = hundredths(given) ?? 0;
  if (value > 0)
    warnings.push(`${at}: ${given.toFixed(2)} was read as ${(-given).toFixed(2)}; a deduction is 0 or less.`);
  return value > 0 ? -value : value;
}

/** The JSON form of a protocol, as `readProtocol` reads it: reading it again gives the same value. */
export function writeProtocol(protocol: Protocol): ProtocolForm {
  return {
    ...present({
      id: protocol.id,
      body: protocol.body,
      season: protocol.season,
      rulebook: protocol.rulebook,
      competition: protocol.competition,
      date: protocol.date,
      order: protocol.order,
      category: protocol.category,
      segment: protocol.segment,
      skater: protocol.skater,
      rank: protocol.rank,
      startNumber: protocol.startNumber,
    }),
    elements: protocol.elements.map(writeElement),
    components: protocol.components.map((component) => ({
      name: component.name,
      ...present({ factor: toPoints(component.factor) }),
      marks: component.marks.map(toPoints),
      ...present({ score: toPoints(component.score) }),
    })),
    ...present({ deductions: writeDeductions(protocol.deductions) }),
    ...present({
      bonus: toPoints(protocol.bonus),
      tes: toPoints(protocol.tes),
      pcs: toPoints(protocol.pcs),
      total: toPoints(protocol.total),
    }),
  };
}

const writeElement = (element: ProtocolElement): ProtocolForm['elements'][number] => ({
  ...present({ no: element.no }),
  code: element.code,
  ...present({ info: element.info === '' ? null : element.info, feedback: element.feedback }),
  half: element.half,
  ...present({ start: element.start, base: toPoints(element.base), goe: toPoints(element.goe) }),
  marks: [...element.marks],
  ...present({ score: toPoints(element.score) }),
});

const writeDeductions = (deductions: Deductions | null): ProtocolForm['deductions'] | null =>
  deductions?.items?.map((item) => ({
    reason: item.reason,
    ...present({ count: item.count }),
    points: (item.points + 0) / 100,
  })) ?? toPoints(deductions?.total ?? null);

/** Only the fields that have a value: what a sheet does not print does not appear in the form. */
function present<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], null> } {
  // The filter is exactly what the mapped type says; the compiler cannot see through `fromEntries`.
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== null)) as {
    [K in keyof T]?: Exclude<T[K], null>;
  };
}
