import type { AgeGroup } from '../../notation/index.ts';
import { cholesky, dot, solve } from '../math/solve.ts';
import type { FieldFigures, Figure } from './field.ts';
import type { Line } from './line.ts';

/**
 * Her usual scores, seen through earlier protocols of both segments.
 *
 * Element score and component score of both segments are four figures that hang together: between
 * skaters strongly (a skater with high components has a high element score in either segment), from day
 * to day weakly. In units of the field's spread they are a normal vector with the covariances below;
 * what is known of one figure shrinks the others towards it, so that one good or bad day moves little.
 * The constants are round numbers near the published repeatability of one skater within a season.
 */
const BETWEEN = { tes: 0.65, pcs: 0.9 };
const BETWEEN_CORRELATION = { tesPcs: 0.8, tesTes: 0.95, pcsPcs: 0.98 };
const WITHIN = { tes: 0.38, pcs: 0.09 };
const WITHIN_CORRELATION = { samePart: { tes: 0.1, pcs: 0.55 }, sameProgram: 0.3, other: 0.2 };

/** Share of the usual that fades from one of her events to the next. */
const FADES: Readonly<Record<AgeGroup, number>> = {
  senior: 0.04,
  junior: 0.06,
  'advanced novice': 0.12,
  'intermediate novice': 0.15,
  'basic novice': 0.15,
  novice: 0.12,
  intermediate: 0.15,
  juvenile: 0.2,
};

type Part = 'tes' | 'pcs';
type Segment = Line['segment'];

interface Seen {
  readonly part: Part;
  readonly segment: Segment;
  /** Number of her event, from 0. */
  readonly event: number;
  readonly z: number;
}

type Slot = Pick<Seen, 'part' | 'segment'>;

function between(a: Slot, b: Slot): number {
  const scale = Math.sqrt(BETWEEN[a.part] * BETWEEN[b.part]);
  if (a.part !== b.part) return scale * BETWEEN_CORRELATION.tesPcs;
  if (a.segment === b.segment) return scale;
  return scale * (a.part === 'tes' ? BETWEEN_CORRELATION.tesTes : BETWEEN_CORRELATION.pcsPcs);
}

function within(a: Slot, b: Slot): number {
  const scale = Math.sqrt(WITHIN[a.part] * WITHIN[b.part]);
  if (a.part === b.part) return a.segment === b.segment ? scale : scale * WITHIN_CORRELATION.samePart[a.part];
  return scale * (a.segment === b.segment ? WITHIN_CORRELATION.sameProgram : WITHIN_CORRELATION.other);
}

/** Protocols further back than this add nothing that the later ones do not say. */
const REMEMBERED = 24;

const standard = (value: number, { mean, sd }: Figure): number => (sd > 0 ? (value - mean) / sd : 0);

function seen(own: readonly Line[], fields: Readonly<Record<Segment, FieldFigures | null>>): readonly Seen[] {
  const times = [...new Set(own.map((line) => line.when))].sort((a, b) => a - b);
  return own.slice(-REMEMBERED).flatMap((line) => {
    const field = fields[line.segment];
    if (field === null) return [];
    const { segment } = line;
    const event = times.indexOf(line.when);
    return [
      { part: 'tes' as const, segment, event, z: standard(line.tes, field.tes) },
      { part: 'pcs' as const, segment, event, z: standard(line.pcs, field.pcs) },
    ];
  });
}

/** Mean and spread, in points, of the next total of a segment before any calibration. */
export interface Usual {
  readonly mean: number;
  readonly sd: number;
  /** Spread that a skater of whom nothing is known would have. */
  readonly fieldSd: number;
  /** Mean that she would have. */
  readonly fieldMean: number;
}

/** Deductions vary by this much, in points. */
const DEDUCTION_SD = 0.7;

/**
 * Her usual total of the next event of a segment, from her own earlier lines (`own`, in order of time)
 * and the field of both segments. With no line of her own it is the field.
 */
export function usualTotal(
  own: readonly Line[],
  segment: Segment,
  fields: Readonly<Record<Segment, FieldFigures | null>>,
  ageGroup: AgeGroup,
): Usual | null {
  const field = fields[segment];
  if (field === null) return null;
  const target: readonly Slot[] = [
    { part: 'tes', segment },
    { part: 'pcs', segment },
  ];
  const spread = [field.tes.sd, field.pcs.sd];
  const data = seen(own, fields);
  const now = new Set(own.map((line) => line.when)).size;
  const fades = FADES[ageGroup];
  const l = cholesky(
    data.map((a) =>
      data.map(
        (b) =>
          between(a, b) * Math.exp(-fades * Math.abs(a.event - b.event)) + (a.event === b.event ? within(a, b) : 0),
      ),
    ),
  );
  const z = data.map((d) => d.z);
  const links = target.map((t) => data.map((d) => between(t, d) * Math.exp(-fades * (now - d.event))));
  const weights = links.map((link) => solve(l, link));
  let mean = field.tes.mean + field.pcs.mean + field.deductions;
  let variance = DEDUCTION_SD ** 2;
  let fieldVariance = DEDUCTION_SD ** 2;
  target.forEach((t, i) => {
    mean += (spread[i] ?? 0) * dot(weights[i] ?? [], z);
    target.forEach((u, j) => {
      const scale = (spread[i] ?? 0) * (spread[j] ?? 0);
      const prior = between(t, u) + within(t, u);
      variance += scale * (prior - dot(weights[i] ?? [], links[j] ?? []));
      fieldVariance += scale * prior;
    });
  });
  return {
    mean,
    sd: Math.sqrt(variance),
    fieldSd: Math.sqrt(fieldVariance),
    fieldMean: field.tes.mean + field.pcs.mean + field.deductions,
  };
}
