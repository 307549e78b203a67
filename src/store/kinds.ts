import { z } from 'zod';
import { AGE_GROUPS, SEGMENTS, SEXES } from '../notation/index.ts';
import { isDay, isDeeperThan, isTime } from './checks.ts';

/**
 * What the store keeps, one schema per kind. The server checks requests and responses with the same
 * schemas, and its OpenAPI page is made from them. Points are integer hundredths; dates are ISO text.
 *
 * There is no field for weight, height, body shape, diet, puberty or injury, and none may be added.
 */

const id = z
  .string()
  .min(1)
  .max(80)
  .regex(/^[A-Za-z0-9._-]+$/, 'letters, digits, dot, dash and underscore');
/** Text of people. A NUL cannot be kept by PostgreSQL, and nobody means one. */
const text = (max: number) =>
  z
    .string()
    .max(max)
    .refine((value) => !value.includes('\u0000'), 'text without NUL signs');
const day = z.string().refine(isDay, 'a day that exists, as 2026-11-25');
const instant = z.string().max(40);
/** No form nests so far; writing what nests thousands of times overruns the stack. */
const DEEPEST = 100;
const TOO_DEEP = `nothing nested more than ${DEEPEST} times`;
const segment = z.enum(SEGMENTS);
const category = z.enum(AGE_GROUPS.flatMap((age) => SEXES.map((sex) => `${age} ${sex}` as const)));
/** A form of another room, kept as given; that room checks it when it is used. */
const form = z.record(z.string(), z.unknown()).refine((value) => !isDeeperThan(value, DEEPEST), TOO_DEEP);

export const skater = z.object({
  id,
  name: text(80).min(1),
  category,
  /** Issuing body whose rules she skates under; null: asked when a sheet does not say. */
  body: text(40).nullable(),
  nextLesson: day.nullable(),
  /** "Not now until": a date without a reason, by design. */
  notNow: z.array(z.object({ code: text(40), until: day })).max(50),
  archived: z.boolean(),
});

export const competition = z
  .object({
    id,
    name: text(120).min(1),
    date: day,
    endDate: day.nullable(),
    body: text(40).nullable(),
    panelSize: z.int().min(1).max(15).nullable(),
    video: z.enum(['yes', 'no', 'unknown']),
    purpose: z.enum(['try-out', 'counts', 'peak']).nullable(),
    /** Who takes part. */
    skaters: z.array(id).max(400),
    deadlines: z.array(z.object({ what: text(80), date: day, skaters: z.array(id).max(400) })).max(30),
    /** From this day on `best` and `plan` suggest only removals and swaps already skated. */
    freeze: day.nullable(),
    note: text(500).nullable(),
  })
  .refine((e) => e.endDate === null || e.endDate >= e.date, {
    path: ['endDate'],
    error: 'the first day or a later one',
  });

export const protocol = z.object({
  id,
  skaterId: id,
  competitionId: id.nullable(),
  sheetId: id.nullable(),
  category,
  segment,
  season: text(10),
  date: day.nullable(),
  practice: z.boolean(),
  tes: z.int().nullable(),
  pcs: z.int().nullable(),
  total: z.int().nullable(),
  /** The protocol form as read from the sheet. */
  form,
  /** Version of the reader that made it; a better reader makes a new version and overwrites nothing. */
  reader: text(20),
  /** At most two things on the skater's page, chosen by the coach. */
  onHerPage: z.array(text(40)).max(2),
  /** Nothing reaches skater or family before this. */
  releasedAt: instant.refine(isTime, 'a time as 2026-11-25T10:00:00Z').nullable(),
});

export const layout = z.object({
  id,
  skaterId: id,
  segment,
  season: text(10),
  version: z.int().min(1),
  title: text(80),
  current: z.boolean(),
  form,
  savedAt: instant,
});

export const plan = z.object({
  id,
  skaterId: id,
  kind: z.enum(['steps', 'spin', 'spins']),
  title: text(80),
  segment,
  season: text(10),
  /** The line as the coach typed it. */
  line: text(4000),
  form,
  savedAt: instant,
});

export const runThrough = z.object({
  id,
  skaterId: id,
  layoutId: id.nullable(),
  segment,
  at: instant,
  /** Codes as planned on that day, in skating order; absent in older records: those of the layout. */
  planned: z.array(text(40)).max(40).optional(),
  /** Only what was other than planned, by position in the layout. */
  exceptions: z.array(z.object({ no: z.int().min(1), code: text(40), what: text(60) })).max(40),
  note: text(500).nullable(),
});

export const GOAL_KINDS = ['habit', 'quality', 'level', 'content', 'score'] as const;

export const goal = z.object({
  id,
  skaterId: id,
  kind: z.enum(GOAL_KINDS),
  text: text(200).min(1),
  due: day.nullable(),
  target: z.int().nullable(),
  on: z.enum(['tes', 'pcs', 'total', 'event']).nullable(),
  state: z.enum(['open', 'met', 'moved']),
  movedBecause: text(200).nullable(),
});

export const NOTE_BOXES = ['private', 'report', 'told-by-panel'] as const;

export const note = z.object({
  id,
  /** What the note is about: a kind and its id. */
  about: text(40),
  aboutId: id,
  element: z.int().min(1).nullable(),
  box: z.enum(NOTE_BOXES),
  text: text(4000),
  /** Seconds into a video file that never leaves the machine. */
  videoAt: z.number().min(0).nullable(),
  /** Told by the panel: difficult turns credited in the step sequence of `element`. */
  turns: z.int().min(0).max(12).nullish(),
  /** Told by the panel: the basic position that was missing in the spin of `element`. */
  missingPosition: z.enum(['camel', 'sit', 'upright']).nullish(),
});

/**
 * One segment of one event as a field without names: the forms of all its protocols with skater, rank,
 * start number and every id taken off. It answers "where does she stand in this field", nothing else.
 */
export const field = z.object({
  id,
  competitionId: id.nullable(),
  category,
  segment,
  season: text(10),
  date: day.nullable(),
  protocols: z.array(form).max(400),
});

export const setting = z.object({
  id,
  value: z.unknown().refine((value) => !isDeeperThan(value, DEEPEST), TOO_DEEP),
});

/** Every kind by the name of its table and of its address in the API. */
export const KINDS = {
  skaters: skater,
  competitions: competition,
  protocols: protocol,
  layouts: layout,
  plans: plan,
  runthroughs: runThrough,
  goals: goal,
  notes: note,
  fields: field,
  settings: setting,
} as const;

export type Kind = keyof typeof KINDS;
export type RecordOf<K extends Kind> = z.infer<(typeof KINDS)[K]>;

export const kindNames = Object.keys(KINDS) as Kind[];
