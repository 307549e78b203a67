import { z } from 'zod';

import { fail, ok, parseCode, type Problem, type Result } from '../notation/index.ts';
import {
  checkForm,
  date,
  finite,
  heading,
  hundredths,
  list,
  named,
  points,
  positiveWhole,
  probability,
  problemOf,
  readHeading,
  seconds,
  spread,
  text,
  truth,
} from './form-fields.ts';
import { STAGES, type Layout, type LayoutComponent, type LayoutElement, type Outcome } from './layout.ts';

/** Far above any program or inventory. */
const MOST_ENTRIES = 1000;

const outcomeForm = z.object(
  {
    p: probability,
    code: text,
    grade: z.record(z.string(), probability, { error: 'panel grades with their probabilities' }),
    fall: truth.nullish(),
  },
  { error: 'an outcome with p, code and grade' },
);

const layoutElementForm = z.object(
  {
    code: z.string({ error: 'an element code such as 2A+2T' }),
    start: seconds.nullish(),
    half: truth.nullish(),
    grade: finite.nullish(),
    outcomes: list(outcomeForm, MOST_ENTRIES, 'outcomes').nullish(),
    reliability: probability.nullish(),
    max: positiveWhole.nullish(),
    stage: z.enum(STAGES, { error: STAGES.join(', ') }).nullish(),
    since: date.nullish(),
    notBefore: date.nullish(),
  },
  { error: 'a planned element' },
);

const layoutComponentForm = z.object(
  {
    name: text,
    factor: points.positive({ error: 'a factor above 0' }).nullish(),
    mean: finite.nullish(),
    sd: spread.nullish(),
  },
  { error: 'a component' },
);

/** Fields of a layout that an inventory has too. */
export const layoutFields = {
  ...heading,
  elements: list(layoutElementForm, MOST_ENTRIES, 'planned elements'),
  components: list(layoutComponentForm, MOST_ENTRIES, 'components').nullish(),
  form: z.object({ sd: spread }, { error: 'the day factor, { "sd": number }' }).nullish(),
  duration: seconds.nullish(),
};

/** The JSON (or YAML) form of a layout; fields it does not name are allowed and ignored. */
export const layoutForm = z
  .object(layoutFields, { error: 'a layout as an object' })
  .meta({ title: 'Layout', description: 'The ordered planned elements of one program.' });

export type LayoutForm = z.infer<typeof layoutForm>;

/**
 * Reads a layout: codes must parse, probabilities of `outcomes` and of each `grade` must sum to 1
 * within 1e-9 and are then normalised. Trouble is a located problem.
 */
export function readLayout(value: unknown): Result<Layout> {
  const checked = checkForm(layoutForm, value, 'layout.form');
  return checked.ok ? toLayout(checked.value, value) : checked;
}

/** The layout part of a checked layout or inventory form; `root` is the value as given, for places. */
export function toLayout(form: LayoutForm, root: unknown): Result<Layout> {
  const elements: LayoutElement[] = [];
  for (const [i, element] of form.elements.entries()) {
    const read = toElement(element, i, root);
    if (!read.ok) return read;
    elements.push(read.value);
  }
  return ok({
    ...readHeading(form),
    elements,
    components: form.components?.map(toComponent) ?? null,
    form: form.form == null ? null : { sd: form.form.sd },
    duration: form.duration ?? null,
    warnings: [],
  });
}

const toComponent = (form: z.infer<typeof layoutComponentForm>): LayoutComponent => ({
  name: form.name,
  factor: hundredths(form.factor),
  mean: form.mean ?? null,
  sd: form.sd ?? null,
});

type ElementForm = z.infer<typeof layoutElementForm>;

function toElement(form: ElementForm, i: number, root: unknown): Result<LayoutElement> {
  const trouble = codeProblem(form.code, ['elements', i, 'code']);
  if (trouble) return fail(trouble);
  const outcomes = form.outcomes == null ? ok(null) : toOutcomes(form.outcomes, i, root);
  if (!outcomes.ok) return outcomes;
  return ok({
    code: form.code.trim(),
    start: form.start ?? null,
    half: form.half ?? null,
    grade: form.grade ?? null,
    outcomes: outcomes.value,
    ...(form.reliability == null ? {} : { reliability: form.reliability }),
    max: form.max ?? null,
    stage: form.stage ?? null,
    since: named(form.since),
    notBefore: named(form.notBefore),
  });
}

/** Null when the code can be read, else the notation's problem at this place of the form. */
export function codeProblem(code: string, path: readonly (string | number)[]): Problem | null {
  const parsed = parseCode(code);
  if (parsed.ok) return null;
  const at = problemOf(path, null, '', '').at;
  return { ...parsed.error, at, found: `${parsed.error.found} at ${parsed.error.at} of “${code.slice(0, 40)}”` };
}

type OutcomeForm = z.infer<typeof outcomeForm>;

function toOutcomes(forms: readonly OutcomeForm[], i: number, root: unknown): Result<readonly Outcome[]> {
  const path = ['elements', i, 'outcomes'];
  const total = wholeChance(forms.map((form) => form.p));
  if (total === null) return fail(problemOf(path, root, 'probabilities p that sum to 1', 'layout.probabilities'));
  const outcomes: Outcome[] = [];
  for (const [k, form] of forms.entries()) {
    const trouble = codeProblem(form.code, [...path, k, 'code']);
    if (trouble) return fail(trouble);
    const grades = toGrades(form.grade);
    if (grades === null)
      return fail(
        problemOf([...path, k, 'grade'], root, 'panel grades whose probabilities sum to 1', 'layout.probabilities'),
      );
    outcomes.push({ p: form.p / total, code: form.code.trim(), grades, fall: form.fall ?? false });
  }
  return ok(outcomes);
}

function toGrades(form: Readonly<Record<string, number>>): Outcome['grades'] | null {
  const entries = Object.entries(form).map(([grade, p]) => ({ grade: grade.trim() === '' ? NaN : Number(grade), p }));
  const total = wholeChance(entries.map((entry) => entry.p));
  if (total === null || entries.some((entry) => !Number.isFinite(entry.grade))) return null;
  return entries.map(({ grade, p }) => ({ grade, p: p / total })).sort((a, b) => a.grade - b.grade);
}

const CHANCE_TOLERANCE = 1e-9;

/** The sum of probabilities, for normalising; null when it is not 1. */
function wholeChance(chances: readonly number[]): number | null {
  const total = chances.reduce((sum, p) => sum + p, 0);
  return Math.abs(total - 1) <= CHANCE_TOLERANCE ? total : null;
}
