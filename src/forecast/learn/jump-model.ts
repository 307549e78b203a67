import type { Element, Jump, JumpElement } from '../../notation/index.ts';
import type { GoeScale } from '../../rulebook/index.ts';
import type { SkatedOutcome } from '../exact/program.ts';
import { nextGrade, onScale, type WeightedGrade } from './grades.ts';
import type { Priors } from './priors.ts';
import { shrunk, zeroCounts } from './rates.ts';
import {
  FIRST,
  SECOND,
  SEVERITIES,
  followerOf,
  jumpClass,
  severityOf,
  type First,
  type JumpTry,
  type Second,
  type Severity,
} from './status.ts';

/** A try with its weight: recent ones weigh more, related elements less. */
export interface WeightedTry {
  readonly one: JumpTry;
  readonly weight: number;
}

/** Tries of her own that the field's rates are worth. */
const RATE_STRENGTH = 5;
/** Grades of her own that the field's mean grade is worth. */
const GRADE_STRENGTH = 3;
/** Outcomes rarer than this are left out. */
const RARE = 0.003;

const isEdgeJump = (jump: Jump): boolean => jump.name === 'F' || jump.name === 'Lz';

interface Branch {
  readonly p: number;
  readonly first: First;
  readonly edge: '!' | 'e' | null;
  readonly second: Second | null;
  readonly fall: boolean;
}

function firstRates(jump: Jump, tries: readonly WeightedTry[], priors: Priors): Record<First, number> {
  const own = zeroCounts(FIRST);
  for (const { one, weight } of tries) own[one.first] += weight;
  const rates = shrunk(own, priors.first[jumpClass(jump)], RATE_STRENGTH);
  // A jump of one turn cannot lose two.
  return jump.turns >= 2 ? rates : { ...rates, pop2: 0 };
}

function edgeRates(jump: Jump, tries: readonly WeightedTry[], priors: Priors): Record<'none' | '!' | 'e', number> {
  if (!isEdgeJump(jump)) return { none: 1, '!': 0, e: 0 };
  const own = zeroCounts(['none', '!', 'e'] as const);
  for (const { one, weight } of tries) own[one.edge ?? 'none'] += weight;
  return shrunk(own, priors.edge, RATE_STRENGTH / 2);
}

function secondRates(
  follower: Jump | undefined,
  tries: readonly WeightedTry[],
  priors: Priors,
): readonly { readonly second: Second | null; readonly p: number }[] {
  if (follower === undefined) return [{ second: null, p: 1 }];
  const own = zeroCounts(SECOND);
  for (const { one, weight } of tries) if (one.second !== null && !one.fall) own[one.second] += weight;
  const rates = shrunk(own, priors.second[jumpClass(follower)], RATE_STRENGTH);
  return SECOND.map((second) => ({ second, p: rates[second] }));
}

function fallRate(jump: Jump, tries: readonly WeightedTry[], priors: Priors): number {
  const own = zeroCounts(['fall', 'stood'] as const);
  for (const { one, weight } of tries) own[one.fall ? 'fall' : 'stood'] += weight;
  return shrunk(own, priors.fall[jumpClass(jump)], RATE_STRENGTH).fall;
}

/** Share of the falls that follow each call on the first jump: short jumps fall more often. */
const FALLS_AFTER: Readonly<Record<First, number>> = { ok: 1, q: 1.5, '<': 2.5, '<<': 2.5, pop: 0.2, pop2: 0.1 };

/** Fall rates by call whose mean over the calls is the rate as a whole. */
function fallsByCall(rate: number, first: Record<First, number>): Record<First, number> {
  const mean = FIRST.reduce((sum, f) => sum + first[f] * FALLS_AFTER[f], 0);
  const table = zeroCounts(FIRST);
  for (const f of FIRST) table[f] = Math.min(0.95, mean > 0 ? (rate * FALLS_AFTER[f]) / mean : 0);
  return table;
}

function branches(planned: JumpElement, jump: Jump, tries: readonly WeightedTry[], priors: Priors): readonly Branch[] {
  const first = firstRates(jump, tries, priors);
  const edge = edgeRates(jump, tries, priors);
  const falls = fallsByCall(fallRate(jump, tries, priors), first);
  const second = secondRates(followerOf(planned), tries, priors);
  const list: Branch[] = [];
  for (const f of FIRST) {
    const opened = f === 'pop' || f === 'pop2';
    const follow = opened ? [{ second: null, p: 1 }] : second;
    for (const call of [null, '!', 'e'] as const) {
      if (opened && call !== null) continue;
      const p = first[f] * (opened ? 1 : edge[call ?? 'none']);
      list.push({ p: p * falls[f], first: f, edge: call, second: follow.length > 1 ? 'missing' : null, fall: true });
      for (const s of follow)
        list.push({ p: p * (1 - falls[f]) * s.p, first: f, edge: call, second: s.second, fall: false });
    }
  }
  return list;
}

const lowered = (jump: Jump, turns: number): Jump => ({ ...jump, turns: Math.max(0, jump.turns - turns) });

function firstSkated(jump: Jump, { first, edge }: Branch): Jump {
  if (first === 'pop') return lowered(jump, 1);
  if (first === 'pop2') return lowered(jump, 2);
  return { ...jump, rotation: first === 'ok' ? null : first, edge };
}

function secondSkated(jump: Jump, second: Second): Jump {
  if (second === 'less') return lowered(jump, 1);
  return { ...jump, rotation: second === 'ok' || second === 'missing' ? null : second };
}

/** The element as skated in a branch; a missing second jump leaves the first alone. */
function skatedElement(planned: JumpElement, jump: Jump, branch: Branch): Element {
  const first = firstSkated(jump, branch);
  const opened = branch.first === 'pop' || branch.first === 'pop2';
  if (opened || branch.second === 'missing') return { kind: 'jump', jumps: [first], markers: [] };
  const follower = followerOf(planned);
  const rest = planned.jumps
    .slice(1)
    .map((j) => (j === follower && branch.second ? secondSkated(j, branch.second) : j));
  return { ...planned, jumps: [first, ...rest] };
}

function gradesOf(severity: Severity, jump: Jump, tries: readonly WeightedTry[], priors: Priors, offset: number) {
  const figures = priors.jumpGrade[jumpClass(jump)][severity];
  const own: WeightedGrade[] = tries.flatMap(({ one, weight }) =>
    one.grade !== null && severityOf(one) === severity ? [{ grade: one.grade, weight }] : [],
  );
  // Her usual lies above or below the field's; a fall ends near the foot of the scale for everybody.
  const mean = severity === 'fall' ? figures.mean : figures.mean + offset;
  return nextGrade({ mean, sd: figures.sd, strength: GRADE_STRENGTH }, own);
}

const joined = (outcomes: readonly SkatedOutcome[], keys: readonly string[]): readonly SkatedOutcome[] => {
  const byKey = new Map<string, SkatedOutcome>();
  outcomes.forEach((outcome, i) => {
    const key = keys[i] ?? '';
    const known = byKey.get(key);
    byKey.set(key, known ? { ...known, p: known.p + outcome.p } : outcome);
  });
  return [...byKey.values()];
};

/**
 * Outcomes of a planned jump element: calls on the first jump and on its edge, what becomes of the
 * second, falls, and the panel's grade in each case; her own tries beside the field's rates.
 * `offset` is how far her usual grade lies above the field's (shares of the scale), `grade` an expected
 * grade that the layout states for a clean try.
 */
export function jumpOutcomes(
  planned: JumpElement,
  tries: readonly WeightedTry[],
  priors: Priors,
  scale: GoeScale,
  given: { readonly offset: number; readonly grade: number | null },
): readonly SkatedOutcome[] {
  const [jump] = planned.jumps;
  if (jump === undefined) return [];
  const grades = new Map(
    SEVERITIES.map((severity) => {
      const learnt = gradesOf(severity, jump, tries, priors, given.offset);
      const stated =
        severity === 'ok' && given.grade !== null ? { ...learnt, centre: given.grade / scale.max } : learnt;
      return [severity, onScale(stated, scale)];
    }),
  );
  const kept = branches(planned, jump, tries, priors).filter((b) => b.p >= RARE);
  const total = kept.reduce((sum, b) => sum + b.p, 0);
  const outcomes = kept.map((branch) => ({
    p: branch.p / total,
    element: skatedElement(planned, jump, branch),
    grades: grades.get(severityOf(branch)) ?? [],
    fall: branch.fall,
  }));
  return joined(
    outcomes,
    kept.map((b, i) => JSON.stringify([outcomes[i]?.element, severityOf(b), b.fall])),
  );
}
