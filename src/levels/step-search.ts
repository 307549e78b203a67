import type { StepRules, TurnType } from '../rulebook/index.ts';
import { clusterMoves, findClusters } from './step-clusters.ts';
import { expectedOver, levelChances } from './step-chances.ts';
import { levelWhen, planOf, rankOf, type CalledLevel, type StepPlan } from './step-assess.ts';
import { connects, directionOf, type Move } from './step-sequence.ts';
import { spareOf } from './step-spare.ts';
import type { LevelWorth } from './step-weakest.ts';
import {
  DIRECTIONS,
  EDGES,
  TURNS,
  footOf,
  isFreeDirection,
  turnGeometry,
  type Direction,
  type Edge,
  type Foot,
} from './turns.ts';

/** What the coach sets before looking for a better sequence. */
export interface SearchConstraints {
  /** Indexes of moves that stay as they are. */
  readonly keep?: readonly number[];
  /** Turns, edges or both that are not to be used: `choctaw`, `RBI`, `RBI rocker`. */
  readonly avoid?: readonly string[];
  /** New moves on this foot win where everything else is equal. */
  readonly prefer?: Foot | null;
  /** Chance of credit of a new move; absent: the mean of the same turn in the plan, else of all moves. */
  readonly credit?: number;
  readonly maxEdits?: 1 | 2;
}

export interface Edit {
  readonly kind: 'replace' | 'add';
  /** Index in the sequence that it changes; an added move stands before the move of that index. */
  readonly at: number;
  readonly turn: TurnType;
  readonly edge: Edge;
  readonly direction: Direction | null;
}

export interface Improved {
  readonly edits: readonly Edit[];
  readonly moves: readonly Move[];
  readonly level: CalledLevel;
  /** null: no loss outside the clusters lowers the level. */
  readonly spare: number | null;
  /** Expected worth; null where it is not known. */
  readonly expected: number | null;
}

export interface SearchResult {
  /** Best first; the plan itself comes without edits where nothing is better. */
  readonly found: readonly Improved[];
  /** True: every sequence within the allowed edits and constraints was looked at. */
  readonly proven: boolean;
  readonly searched: number;
}

/**
 * Sequences within one or two edits (replace a move, add a move) that can be skated and respect the
 * constraints, ordered by level, then spare, then expected worth, then fewer edits. Every candidate is
 * looked at, so the first is proven best among them; `shouldStop` ends the search early, unproven.
 */
export function improveSteps(
  moves: readonly Move[],
  rules: StepRules,
  worth: LevelWorth,
  constraints: SearchConstraints = {},
  options: { readonly top?: number; readonly shouldStop?: () => boolean } = {},
): SearchResult {
  const judge = judgeFor(rules, worth);
  const start: Improved = { edits: [], moves, ...judge(moves) };
  const best: Improved[] = [start];
  let searched = 1;
  let frontier: readonly Improved[] = [start];
  for (let round = 0; round < (constraints.maxEdits ?? 1); round += 1) {
    const next: Improved[] = [];
    const isLast = round + 1 === (constraints.maxEdits ?? 1);
    for (const from of frontier)
      for (const edited of editsOf(from, rules, constraints)) {
        if (options.shouldStop?.() === true) return { found: best, proven: false, searched };
        const candidate = { ...edited, ...judge(edited.moves) };
        searched += 1;
        if (!isLast) next.push(candidate);
        insert(best, candidate, constraints, options.top ?? 3);
      }
    frontier = next;
  }
  return { found: best, proven: true, searched };
}

type Judgement = Pick<Improved, 'level' | 'spare' | 'expected'>;

/** Judges sequences; what gives the same count and the same clusters is judged once. */
function judgeFor(rules: StepRules, worth: LevelWorth): (moves: readonly Move[]) => Judgement {
  const known = new Map<string, Judgement>();
  const credits = new Map<number, number>();
  return (moves) => {
    const key = signatureOf(moves, rules, credits);
    const judged = known.get(key) ?? judge(planOf(moves, rules), worth);
    known.set(key, judged);
    return judged;
  };
}

function judge(plan: StepPlan, worth: LevelWorth): Judgement {
  const level = levelWhen(plan, () => true);
  return { level, spare: spareOf(plan, level), expected: expectedOver(levelChances(plan), worth) };
}

/**
 * All that the answer depends on (edits leave the shares, hence rotation and body, as they were): which
 * turns in which direction with which credit, and which of them are in the clusters. One character a
 * move, sorted, because this runs for every candidate.
 */
function signatureOf(moves: readonly Move[], rules: StepRules, credits: Map<number, number>): string {
  const clusters = findClusters(moves, rules);
  const inside = clusterMoves(clusters);
  const marks = new Uint16Array(moves.length);
  moves.forEach((move, index) => {
    const turn = TURNS.indexOf(move.turn) * 2 + Number(directionOf(move) === 'cw');
    if (!credits.has(move.credit)) credits.set(move.credit, credits.size);
    marks[index] = ((credits.get(move.credit) ?? 0) * 2 + Number(inside.has(index))) * 2 * TURNS.length + turn;
  });
  return String.fromCharCode(Number(clusters.valid), ...marks.sort());
}

function insert(best: Improved[], candidate: Improved, constraints: SearchConstraints, top: number): void {
  const place = best.findIndex((one) => compare(candidate, one, constraints) < 0);
  if (place < 0 && best.length >= top) return;
  best.splice(place < 0 ? best.length : place, 0, candidate);
  if (best.length > top) best.pop();
}

/** Negative where `a` is better. */
function compare(a: Improved, b: Improved, { prefer }: SearchConstraints): number {
  const spare = (one: Improved) => one.spare ?? Infinity;
  const liked = (one: Improved) => one.edits.filter((edit) => prefer != null && footOf(edit.edge) === prefer).length;
  const order = [
    rankOf(b.level) - rankOf(a.level),
    Math.sign(spare(b) - spare(a)) || 0,
    nearly((b.expected ?? 0) - (a.expected ?? 0)),
    a.edits.length - b.edits.length,
    liked(b) - liked(a),
    unusualTurns(a) - unusualTurns(b),
  ];
  return order.find((one) => one !== 0) ?? 0;
}

/** Twizzles and choctaws turned the unusual way are the last thing to suggest. */
const unusualTurns = ({ edits }: Improved): number => edits.filter((edit) => edit.direction !== null).length;

/** Sums in another order differ by dust; that is no difference. */
const nearly = (difference: number): number => (Math.abs(difference) < 1e-9 ? 0 : difference);

type Edited = Pick<Improved, 'edits' | 'moves'>;

function* editsOf(from: Improved, rules: StepRules, constraints: SearchConstraints): Generator<Edited> {
  const credits = creditsOf(from.moves, constraints);
  const kept = keptNow(from, constraints);
  for (let at = 0; at <= from.moves.length; at += 1)
    for (const { turn, edge, direction } of candidates(rules, constraints)) {
      const fresh = { turn, edge, direction, credit: credits(turn) };
      const added = place(from, 'add', at, fresh);
      if (added !== null) yield added;
      if (at === from.moves.length || kept.has(at)) continue;
      const replaced = place(from, 'replace', at, fresh);
      if (replaced !== null) yield replaced;
    }
}

/** Where the kept moves of the original stand after the edits so far. */
function keptNow(from: Improved, { keep }: SearchConstraints): ReadonlySet<number> {
  const shifted = (index: number) =>
    from.edits.reduce((now, edit) => (edit.kind === 'add' && edit.at <= now ? now + 1 : now), index);
  return new Set((keep ?? []).map(shifted));
}

function candidates(
  rules: StepRules,
  { avoid = [] }: SearchConstraints,
): { turn: TurnType; edge: Edge; direction: Direction | null }[] {
  const barred = new Set(avoid);
  return rules.countable.flatMap((turn) =>
    EDGES.filter((edge) => ![turn, edge, `${edge} ${turn}`].some((name) => barred.has(name))).flatMap((edge) =>
      isFreeDirection(turn)
        ? DIRECTIONS.map((direction) => ({ turn, edge, direction: unusual(turn, edge, direction) }))
        : [{ turn, edge, direction: null }],
    ),
  );
}

const unusual = (turn: TurnType, edge: Edge, direction: Direction): Direction | null =>
  turnGeometry(turn, edge).direction === direction ? null : direction;

function creditsOf(moves: readonly Move[], { credit }: SearchConstraints): (turn: TurnType) => number {
  const mean = (some: readonly Move[]) => some.reduce((sum, move) => sum + move.credit, 0) / some.length;
  return (turn) => {
    if (credit !== undefined) return credit;
    const same = moves.filter((move) => move.turn === turn);
    return same.length > 0 ? mean(same) : moves.length > 0 ? mean(moves) : 1;
  };
}

/** The sequence with the new move, or null where it could not be skated. */
function place(
  from: Improved,
  kind: Edit['kind'],
  at: number,
  fresh: Omit<Edit, 'kind' | 'at'> & { readonly credit: number },
): Edited | null {
  const { turn, edge, direction } = fresh;
  const rest = kind === 'replace' ? at + 1 : at;
  const { share, body, rotation, change } = kind === 'replace' ? (from.moves[at] ?? PLAIN) : PLAIN;
  const move = linked(from.moves[at - 1], { ...fresh, share, body, rotation, change });
  const after = from.moves[rest];
  const next = move === null || after === undefined ? null : linked(move, after);
  if (move === null || (after !== undefined && next === null)) return null;
  const moves = [...from.moves.slice(0, at), move, ...(next === null ? [] : [next]), ...from.moves.slice(rest + 1)];
  return { edits: [...from.edits, { kind, at, turn, edge, direction }], moves };
}

const PLAIN = { share: 0, body: false, rotation: null, change: null } as const;

/**
 * A move as it can follow another: straight on, by a step to the other foot, or over the change that
 * the coach wrote before it; null where only a change that nobody wrote would lead there.
 */
function linked(before: Move | undefined, move: Move): Move | null {
  if (before === undefined) return { ...move, change: null };
  if (move.change === 'foot' || connects(before, move)) return move;
  const { exits } = turnGeometry(before.turn, before.edge);
  if (move.change === 'edge') return exits.some((exit) => sameFootAndTravel(exit, move.edge)) ? move : null;
  return exits.every((exit) => footOf(exit) !== footOf(move.edge)) ? { ...move, change: 'foot' } : null;
}

const sameFootAndTravel = (a: Edge, b: Edge): boolean => a.slice(0, 2) === b.slice(0, 2);
