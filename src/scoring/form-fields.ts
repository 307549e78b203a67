import { z } from 'zod';

import {
  isDay,
  fail,
  ok,
  parseCategory,
  parseSeason,
  parseSegment,
  type Problem,
  type Result,
} from '../notation/index.ts';
import type { Hundredths } from '../rulebook/index.ts';

/*
 * Leaves shared by the forms. The `error` text of each leaf is what was expected, in words; together
 * with the path and the value found it becomes a `Problem`.
 */

/** Doubles of two decimals differ from them by far less than this. */
const DECIMAL_TOLERANCE = 1e-6;

const hasTwoDecimals = (points: number): boolean =>
  Math.abs(points * 100 - Math.round(points * 100)) <= DECIMAL_TOLERANCE;

/** No figure of a sheet comes near this; it keeps all sums exact. */
const LARGEST = 100_000;

const EXPECTED_POINTS = 'points as a number with at most two decimals';

export const points = z
  .number({ error: EXPECTED_POINTS })
  .min(-LARGEST, { error: EXPECTED_POINTS })
  .max(LARGEST, { error: EXPECTED_POINTS })
  .refine(hasTwoDecimals, { error: EXPECTED_POINTS });

export const text = z.string({ error: 'text' });
export const truth = z.boolean({ error: 'true or false' });
export const whole = z.int({ error: 'a whole number' });
export const positiveWhole = z.int({ error: 'a whole number from 1' }).min(1, { error: 'a whole number from 1' });
const EXPECTED_COUNT = 'a whole number from 0 to 1000';
/** How often something happened in one program; more than the largest is a slip of the pen, or malice. */
export const count = z
  .int({ error: EXPECTED_COUNT })
  .min(0, { error: EXPECTED_COUNT })
  .max(1000, { error: EXPECTED_COUNT });
export const finite = z.number({ error: 'a number' });
export const seconds = z.number({ error: 'seconds from 0' }).min(0, { error: 'seconds from 0' });
export const spread = z.number({ error: 'a number from 0' }).min(0, { error: 'a number from 0' });
export const probability = z
  .number({ error: 'a probability from 0 to 1' })
  .min(0, { error: 'a probability from 0 to 1' })
  .max(1, { error: 'a probability from 0 to 1' });

/** A list of at most `most` entries; `what` names them. */
export const list = <S extends z.ZodType>(entry: S, most: number, what: string) =>
  z.array(entry, { error: `a list of ${what}` }).max(most, { error: `at most ${most} ${what}` });

const EXPECTED_DATE = 'a date such as 2023-10-14';
export const date = z
  .string({ error: EXPECTED_DATE })
  .refine((given) => isDate(given), { error: EXPECTED_DATE })
  .meta({ format: 'date' });

/** What follows the day, a time of it, is not looked at. */
const isDate = (given: string): boolean => isDay(given.slice(0, 10));

const EXPECTED_SEASON = 'a season such as 2023/24';
const season = z
  .string({ error: EXPECTED_SEASON })
  .refine((given) => parseSeason(given).ok, { error: EXPECTED_SEASON })
  .meta({ examples: ['2023/24'] });

const EXPECTED_CATEGORY = 'an age group and women or men, such as junior women';
const category = z
  .string({ error: EXPECTED_CATEGORY })
  .refine((given) => parseCategory(given).ok, { error: EXPECTED_CATEGORY })
  .meta({ examples: ['junior women'] });

const EXPECTED_SEGMENT = 'short or free';
const segment = z
  .string({ error: EXPECTED_SEGMENT })
  .refine((given) => parseSegment(given).ok, { error: EXPECTED_SEGMENT })
  .meta({ examples: ['short', 'free'] });

/** An id may be a text or a number; answers repeat it as text. */
const id = z.union([z.string(), z.number()], { error: 'text' });

/** Fields that choose the rules and name the skater; the same in every form. */
export const heading = {
  id: id.nullish(),
  body: text.nullish(),
  season: season.nullish(),
  date: date.nullish(),
  rulebook: text.nullish(),
  category: category.nullish(),
  segment: segment.nullish(),
  skater: text.nullish(),
};

type HeadingForm = z.infer<z.ZodObject<typeof heading>>;

/** The heading as internal values; absent and empty are null. */
export const readHeading = (form: HeadingForm) => ({
  id: form.id == null ? null : String(form.id),
  body: named(form.body),
  season: form.season == null ? null : orNull(parseSeason(form.season)),
  date: form.date?.slice(0, 10) ?? null,
  rulebook: named(form.rulebook),
  category: form.category == null ? null : orNull(parseCategory(form.category)),
  segment: form.segment == null ? null : orNull(parseSegment(form.segment)),
  skater: named(form.skater),
});

/** Null for absent and for blank text. */
export function named(given: string | null | undefined): string | null {
  const trimmed = given?.trim();
  return trimmed === undefined || trimmed === '' ? null : trimmed;
}

const orNull = <T>(result: Result<T>): T | null => (result.ok ? result.value : null);

/** Points of a form as integer hundredths; absent is null. `-0` becomes 0. */
export const hundredths = (given: number | null | undefined): Hundredths | null =>
  given == null ? null : Math.round(given * 100) + 0;

/** Integer hundredths as a number of points with at most two decimals, the way forms and answers write it. */
export const toPoints = (value: Hundredths | null): number | null => (value === null ? null : (value + 0) / 100);

/** Checks a JSON value against a form; the first trouble becomes a located `Problem` with the given code. */
export function checkForm<S extends z.ZodType>(form: S, value: unknown, code: string): Result<z.infer<S>> {
  const checked = form.safeParse(value);
  if (checked.success) return ok(checked.data);
  const issue = deepest(checked.error.issues[0]);
  return fail(problemOf(issue?.path ?? [], value, issue?.message ?? 'another value', code));
}

interface Issue {
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly code?: string;
  readonly errors?: readonly (readonly Issue[])[];
}

/** Of a union that matched nothing, the branch that came furthest tells most: `deductions[1].points`. */
function deepest(issue: Issue | undefined): Issue | undefined {
  const inner = (issue?.errors ?? []).map((branch) => branch[0]).filter((one) => one !== undefined);
  const far = inner.reduce<Issue | undefined>(
    (best, one) => (one.path.length > (best?.path.length ?? 0) ? one : best),
    undefined,
  );
  return issue === undefined || far === undefined ? issue : { ...far, path: [...issue.path, ...far.path] };
}

/** A located `Problem` about the value at a path of a form. */
export function problemOf(path: readonly PropertyKey[], root: unknown, expected: string, code: string): Problem {
  const found = valueAt(root, path);
  return {
    code,
    at: pathText(path),
    found: shown(found),
    expected,
    advice: found === undefined ? 'Add this field.' : 'Correct this field; nothing of this value was used.',
  };
}

/** `['elements', 2, 'goe']` -> `elements[2].goe`; the whole value is `value`. */
export function pathText(path: readonly PropertyKey[]): string {
  const joined = path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`)).join('');
  return joined === '' ? 'value' : joined.replace(/^\./, '');
}

function valueAt(root: unknown, path: readonly PropertyKey[]): unknown {
  let value = root;
  for (const key of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = Reflect.get(value, key);
  }
  return value;
}

const SHOWN = 60;

/** A value in a few words; lists and objects are only named, however large they are. */
function shown(found: unknown): string {
  if (found === undefined) return 'nothing';
  if (Array.isArray(found)) return `a list of ${found.length}`;
  if (typeof found === 'object' && found !== null) return 'an object';
  return typeof found === 'string' && found.length > SHOWN
    ? `${JSON.stringify(found.slice(0, SHOWN))}…`
    : JSON.stringify(found);
}
