import type { StepRules } from '../rulebook/index.ts';
import { connects, type Move } from './step-sequence.ts';
import { FEET, footOf, type Foot } from './turns.ts';

/** The combination of three difficult turns attempted on one foot. */
export interface Cluster {
  readonly foot: Foot;
  /** Indexes of its three moves. */
  readonly moves: readonly [number, number, number];
}

export interface Clusters {
  /** The first three chained moves on each foot as written, whatever is credited later. */
  readonly attempts: readonly Cluster[];
  /** The plan satisfies the season's condition; says nothing about what is credited. */
  readonly valid: boolean;
  /** Why not, as a sentence; null where valid. */
  readonly reason: string | null;
  /** Things that the rules leave open, as sentences. */
  readonly flags: readonly string[];
}

/**
 * Finds the cluster attempt on each foot and checks it against the season's condition.
 * Only the first attempt on a foot can count (published); that an attempt begins with the first three
 * chained turns is inferred from that wording.
 */
export function findClusters(moves: readonly Move[], rules: StepRules): Clusters {
  const attempts = FEET.map((foot) => firstAttempt(moves, foot, rules)).filter((one) => one !== null);
  const reason = objection(moves, attempts, rules);
  return { attempts, valid: reason === null, reason, flags: flagsOf(moves, attempts, rules) };
}

function firstAttempt(moves: readonly Move[], foot: Foot, rules: StepRules): Cluster | null {
  for (let at = 0; at + 2 < moves.length; at += 1) {
    const [a, b, c] = [moves[at], moves[at + 1], moves[at + 2]];
    if (a === undefined || b === undefined || c === undefined) break;
    const onFoot = [a, b, c].every((move) => footOf(move.edge) === foot && rules.clusterTypes.includes(move.turn));
    if (onFoot && connects(a, b) && connects(b, c)) return { foot, moves: [at, at + 1, at + 2] };
  }
  return null;
}

const typesOf = (moves: readonly Move[], cluster: Cluster): Set<string> =>
  new Set(cluster.moves.map((index) => moves[index]?.turn ?? ''));

function objection(moves: readonly Move[], attempts: readonly Cluster[], rules: StepRules): string | null {
  const missing = FEET.filter((foot) => !attempts.some((one) => one.foot === foot));
  if (missing.length > 0)
    return `No three connected difficult turns on the ${missing.map(footWord).join(' or the ')} foot.`;
  return typeObjection(moves, attempts, rules) ?? prescribedObjection(moves, attempts, rules);
}

export const footWord = (foot: Foot): string => (foot === 'L' ? 'left' : 'right');

/**
 * The season's condition on types. `different` asks beside two types per combination that the two
 * are not the same turns, in the same order and direction, on the same foot: one on each foot always
 * differ, so nothing is left to check.
 */
function typeObjection(moves: readonly Move[], attempts: readonly Cluster[], rules: StepRules): string | null {
  if (rules.clusterRule !== 'five-types') {
    const dull = attempts.find((one) => typesOf(moves, one).size < 2);
    return dull === undefined ? null : `The three turns on the ${footWord(dull.foot)} foot are of one type.`;
  }
  const used = new Set(attempts.flatMap((one) => [...typesOf(moves, one)]));
  const absent = rules.clusterTypes.filter((type) => !used.has(type));
  return absent.length === 0 ? null : `The two combinations lack ${absent.join(' and ')}: every type must appear.`;
}

function prescribedObjection(moves: readonly Move[], attempts: readonly Cluster[], rules: StepRules): string | null {
  const inside = attempts.flatMap((one) => one.moves).map((index) => moves[index]);
  const absent = rules.prescribed.filter(
    ({ turn, edge }) => !inside.some((move) => move?.turn === turn && move.edge.endsWith(edge)),
  );
  if (absent.length === 0) return null;
  return `This season prescribes ${absent.map(({ turn, edge }) => `${edge} ${turn}`).join(' and ')} in the combinations.`;
}

/** Published texts settle how many types both combinations have, not whether one may repeat its own. */
function flagsOf(moves: readonly Move[], attempts: readonly Cluster[], rules: StepRules): string[] {
  if (rules.clusterRule !== 'five-types') return [];
  return attempts
    .filter((one) => typesOf(moves, one).size === 2)
    .map(
      (one) =>
        `On the ${footWord(one.foot)} foot one type stands twice in the combination; accepted, but the texts read do not settle it.`,
    );
}

/** Indexes of all moves inside an attempt. */
export const clusterMoves = (clusters: Clusters): ReadonlySet<number> =>
  new Set(clusters.attempts.flatMap((one) => one.moves));

/** Both clusters are met: the plan satisfies the condition and each of their turns is credited. */
export const clustersMet = (clusters: Clusters, isCredited: (index: number) => boolean): boolean =>
  clusters.valid && clusters.attempts.every((one) => one.moves.every(isCredited));
