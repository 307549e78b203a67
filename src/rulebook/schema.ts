import { z } from 'zod';
import { AGE_GROUPS, BASIC_POSITIONS, JUMP_NAMES, parseSeason, SEGMENTS } from '../notation/index.ts';
import { cents, isPoints } from './cents.ts';
import { DEDUCTION_KINDS, SPIN_FEATURES, SPIN_PLACES } from './types.ts';

/**
 * Shapes of the families of rules after inheritance. Points are written as decimals and become
 * integer hundredths here; what may be unknown is null when it is missing.
 */

const points = z.number().refine(isPoints, 'points with at most two decimals').transform(cents);
/** What an element is worth: never below 0. */
const worth = points.refine((n) => n >= 0, 'points that are not below 0');
const factor = points.refine((n) => n > 0, 'a factor above 0');
const whole = z.int().nonnegative();
const percent = z.int().positive().max(1000);
/** No program has more turns in a sequence, elements or jumps than these: a larger figure is a slip of the pen. */
const MOST_TURNS = 30;
const MOST_ELEMENTS = 20;
/** A value that may be unknown, and is when nobody wrote it. */
const maybe = <T extends z.ZodType>(type: T) => type.nullable().default(null);

export const valuesSchema = z.strictObject({
  goe: z.strictObject({ min: z.int().negative(), max: z.int().positive() }),
  sequence: z.strictObject({
    percent,
    count: z.enum(['two-highest', 'all']),
    maxJumps: maybe(whole),
    axelAfterFirst: z.boolean(),
  }),
  repeatPercent: percent,
  secondHalfPercent: percent,
  euler: z.strictObject({
    counts: maybe(z.boolean()),
    segments: z.array(z.enum(SEGMENTS)),
    maxPerProgram: maybe(whole),
  }),
  panel: z
    .strictObject({ trimFrom: whole, drop: whole })
    .refine(({ trimFrom, drop }) => trimFrom > 2 * drop, 'a `trimFrom` that leaves marks when `drop` are off each end'),
  averagingEstablished: z.boolean(),
  componentMarks: z
    .strictObject({ min: worth, max: worth, step: factor })
    .refine(({ min, max }) => min < max, 'a `min` below `max`'),
});

const grades = z.array(points);
const percentRow = z.union([
  worth.nullable(),
  z.strictObject({ base: worth.nullable(), step: worth.nullable().optional() }),
]);

export const scaleSchema = z.strictObject({
  /** 2016/17-2017/18: every row explicit, points per grade by class of row. */
  table: maybe(
    z.strictObject({
      /** Jumps with more turns than this do not exist in the table. */
      maxTurns: whole,
      classes: z.record(z.string(), grades),
      rows: z.record(z.string(), z.strictObject({ base: worth.nullable(), goe: maybe(z.string()) })),
      /** Value of a code that exists but has no row: null, with the reason as its source. */
      otherwise: points.nullable(),
    }),
  ),
  /** From 2018/19: clean rows; everything else follows from `signs` and `stepPercent`. */
  rows: maybe(z.record(z.string(), percentRow)),
  /** One grade, in percent of the row's value. */
  stepPercent: maybe(percent),
  /** Percent of the clean value by sign: `<`, `e`, `e<`, `V`. */
  signs: maybe(z.strictObject({ '<': maybe(percent), e: maybe(percent), 'e<': maybe(percent), V: maybe(percent) })),
  /** `<<` is valued as the jump with one turn less. */
  downgrade: z.literal('one-turn-less'),
  /** Value of a downgraded single, of a jump without rotation, of an element without level. */
  downgradedSingle: points.nullable(),
  withoutRotation: points.nullable(),
  withoutLevel: points.nullable(),
});
export type Scale = z.output<typeof scaleSchema>;

const component = z.strictObject({ name: z.string().min(1), aliases: z.array(z.string()).default([]) });
const segmentFactor = z.strictObject({ factor: maybe(factor) }).prefault({});
export const componentsSchema = z.strictObject({
  list: z.array(component),
  short: segmentFactor,
  free: segmentFactor,
});

const loss = points.refine((n) => n <= 0, 'deductions are not above 0');
export const deductionsSchema = z.strictObject({
  falls: maybe(z.array(loss).min(1)),
  time: maybe(z.strictObject({ points: loss, perSeconds: z.int().positive() })),
  amounts: z.partialRecord(z.enum(DEDUCTION_KINDS), loss).default({}),
  interruption: maybe(
    z.strictObject({
      steps: z.array(z.strictObject({ over: whole, upTo: whole.nullable(), points: loss })),
      withAllowance: maybe(loss),
    }),
  ),
});

const turn = z.enum(['rocker', 'counter', 'bracket', 'loop', 'twizzle', 'choctaw', 'three', 'mohawk']);
const edge = z.string().regex(/^[LR]?[FB][OI]$/, 'an edge such as FO or RBI');
export const stepsSchema = z.strictObject({
  /** For levels 2, 3 and 4: each asks for more than the one before. */
  turnCounts: z
    .tuple([whole.max(MOST_TURNS), whole.max(MOST_TURNS), whole.max(MOST_TURNS)])
    .refine(([two, three, four]) => two < three && three < four, 'three counts, each above the one before'),
  maxPerType: whole,
  complexityCells: whole.max(MOST_TURNS),
  countable: z.array(turn),
  clusterTypes: z.array(turn),
  clusterRule: z.enum(['different', 'any', 'five-types']),
  share: z.strictObject({ of: z.int().positive(), parts: z.int().positive() }),
  prescribed: z.array(z.strictObject({ turn, edge })),
  minimumForBasic: maybe(whole),
  cap: maybe(whole.max(4)),
  letters: z.array(z.enum(['rotation', 'body', 'clusters'])),
});

const shortFoot = z.enum(['V', 'no-value']);
export const spinsSchema = z.strictObject({
  features: z.array(
    z.strictObject({
      name: z.enum(SPIN_FEATURES),
      limit: z.enum(['once-attempted', 'once-credited', 'unlimited']),
    }),
  ),
  conditions: z
    .partialRecord(
      z.enum(SPIN_FEATURES),
      z.strictObject({ on: z.array(z.enum(SPIN_PLACES)), revolutions: maybe(whole), firm: z.boolean().default(true) }),
    )
    .default({}),
  gate: z.array(z.enum(SPIN_FEATURES)),
  maxVariations: maybe(whole),
  usedVariationVoidsFeature: z.boolean(),
  maxFeaturesPerFoot: whole,
  revolutionsPerPosition: whole,
  minRevolutions: whole,
  minRevolutionsPerFoot: whole,
  shortFoot: z.strictObject({ short: shortFoot, free: shortFoot }),
  biellmannAfter: maybe(whole),
  cap: maybe(whole.max(4)),
  positionLetters: z.array(z.enum(BASIC_POSITIONS)),
});

export const reductionsSchema = z
  .record(z.string(), z.strictObject({ min: whole, max: whole }).nullable())
  .nullable()
  .default(null);

const jumpName = z.enum(JUMP_NAMES);
const slot = z.strictObject({
  slot: z.enum(['axel', 'solo', 'combination']),
  names: maybe(z.array(jumpName)),
  turns: z.array(whole),
  pairs: maybe(z.array(z.tuple([whole, whole]))),
  secondNames: maybe(z.array(jumpName)),
});
const spinKind = z.strictObject({
  kind: z.enum(['combination', 'flying', 'one-position', 'layback-or-one-position']),
  codes: z.array(z.string()),
  revolutions: maybe(whole),
});
const repeats = z.strictObject({
  highTurnsFrom: z.number().positive(),
  highKindsTwice: maybe(whole),
  quadKindsTwice: maybe(whole),
  lowKindsTwice: maybe(whole),
  maxSame: maybe(whole),
  familiesTwice: maybe(whole),
  maxPerFamily: maybe(whole),
  repFromTurns: maybe(whole),
  singleKindsTwice: maybe(whole),
  freeBelowTurns: whole,
});
const range = z
  .strictObject({ min: maybe(whole.max(MOST_ELEMENTS)), max: maybe(whole.max(MOST_ELEMENTS)) })
  .refine(({ min, max }) => min === null || max === null || min <= max, 'a `min` that is not above `max`')
  .prefault({});

const segmentSchema = z.strictObject({
  jumpElements: range,
  axelRequired: maybe(z.boolean()),
  maxUnits: maybe(whole),
  maxCombinations: maybe(whole),
  maxSequences: maybe(whole),
  eulerExcludesSequence: maybe(z.boolean()),
  eulerAllowed: maybe(z.boolean()),
  jumpsPerUnit: maybe(z.array(whole)),
  maxTurns: maybe(whole),
  maxTurnsInUnit: maybe(whole),
  maxAxelTurns: maybe(whole),
  repeats: maybe(repeats),
  slots: maybe(z.array(slot)),
  spins: z
    .strictObject({
      min: maybe(whole),
      max: maybe(whole),
      kinds: z.array(spinKind).default([]),
      sameCodeForbidden: maybe(z.boolean()),
    })
    .prefault({}),
  steps: range,
  choreo: z
    .strictObject({
      min: maybe(whole),
      max: maybe(whole),
      forms: z.array(z.enum(['ChSq', 'ChSp', 'ChSt'])).default([]),
    })
    .prefault({}),
  bonusLast: maybe(z.union([whole, z.literal('all')])),
  duration: z
    .strictObject({ seconds: maybe(whole), tolerance: maybe(whole), maximumOnly: z.boolean().default(false) })
    .prefault({}),
  bonusPoints: maybe(z.boolean()),
});
export const contentSchema = z.strictObject({
  short: segmentSchema.nullable().optional(),
  free: segmentSchema.nullable().optional(),
});

export const agesSchema = z.strictObject({ min: maybe(whole), under: maybe(whole), on: z.string().min(1) });

const protestSchema = z.strictObject({
  matter: z.string().min(1),
  open: z.boolean(),
  limit: maybe(z.string()),
  text: z.string().min(1),
});
export const protestsSchema = z.record(z.string(), protestSchema.nullable()).nullable().default(null);

/** A day that the calendar has: 31 February is none. */
const day = z.iso.date('a day such as 2023-07-01');
const period = z
  .strictObject({ from: day, to: day })
  .refine(({ from, to }) => from <= to, 'a day `from` that is not after `to`');
export const headSchema = z.strictObject({
  id: z.string(),
  body: z.string().regex(/^[a-z0-9-]+$/, 'small letters, digits, hyphens'),
  season: z.string().refine((text) => parseSeason(text).ok && /^\d{4}\/\d{2}$/.test(text), 'a season such as 2023/24'),
  title: z.string().min(1),
  provisional: z.boolean().default(false),
  abstract: z.boolean().optional(),
  extends: z.union([z.string(), z.array(z.string())]).optional(),
  valid: z.strictObject({ values: period, content: period, levels: period, deductions: period }),
});

export const categoriesSchema = z.array(z.enum(AGE_GROUPS)).min(1);
