import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import type { TurnType } from '../rulebook/index.ts';
import { EDGES, isEdge, isFreeDirection, turnGeometry, type Direction, type Edge } from './turns.ts';

/*
 * The line that a coach types: `LFO rocker, LBO counter 5% body, / RFI Br cw …`.
 * A move is an entry edge and a turn; what follows belongs to it until the next move. An edge that the
 * move before leads to may be left out. Case does not matter; commas and new lines are optional.
 */

/** A move as written; a share that is not written is null. */
export interface WrittenMove {
  readonly turn: TurnType;
  readonly edge: Edge;
  readonly share: number | null;
  readonly body: boolean;
  readonly rotation: 'left' | 'right' | null;
  readonly direction: Direction | null;
  readonly credit: number;
  readonly change: 'foot' | 'edge' | null;
}

/** Decimals of a share in per cent, and of a chance. */
const DECIMALS = 6;
/** Longest line that is read, in characters. */
const MAX_TEXT = 20_000;
/** More moves than any sequence has; a longer list is a mistake and is not computed. */
export const MAX_MOVES = 100;

const TURN_WORDS: ReadonlyMap<string, TurnType> = new Map<string, TurnType>([
  ...(['rocker', 'ro', 'roc', 'rk'] as const).map((word) => [word, 'rocker'] as const),
  ...(['counter', 'co', 'ctr', 'cn'] as const).map((word) => [word, 'counter'] as const),
  ...(['bracket', 'br', 'brk'] as const).map((word) => [word, 'bracket'] as const),
  ...(['loop', 'lo', 'lp'] as const).map((word) => [word, 'loop'] as const),
  ...(['twizzle', 'tw', 'twz'] as const).map((word) => [word, 'twizzle'] as const),
  ...(['choctaw', 'ch', 'choc'] as const).map((word) => [word, 'choctaw'] as const),
  ...(['three', '3', '3t', 'threeturn', 'three-turn'] as const).map((word) => [word, 'three'] as const),
  ...(['mohawk', 'mo', 'moh'] as const).map((word) => [word, 'mohawk'] as const),
]);

const CHANGE_WORDS: ReadonlyMap<string, 'foot' | 'edge'> = new Map([
  ['/', 'foot'],
  ['step', 'foot'],
  ['~', 'edge'],
  ['change', 'edge'],
]);

interface Token {
  readonly text: string;
  readonly line: number;
  readonly column: number;
}

/** How far the reading has come; `pending` is a written change or edge that still needs its turn. */
interface Scan {
  readonly moves: WrittenMove[];
  change: 'foot' | 'edge' | null;
  edge: Edge | null;
  pending: Token | null;
}

/** Reads a line of moves. The first trouble is located by line and column; never throws. */
export function parseSteps(text: string): Result<readonly WrittenMove[]> {
  if (text.length > MAX_TEXT) return fail(tooLong(`${text.length} characters`, `at most ${MAX_TEXT} characters`));
  const scan: Scan = { moves: [], change: null, edge: null, pending: null };
  for (const token of tokensOf(text)) {
    const problem = take(scan, token);
    if (problem !== null) return fail(problem);
  }
  const { pending, moves } = scan;
  if (pending !== null) return fail(trouble({ ...pending, text: 'the end' }, 'a turn after this', pending.text));
  return ok(moves);
}

/** Takes one token into the reading; answers what is wrong with it, or null. */
function take(scan: Scan, token: Token): Problem | null {
  const word = token.text.toLowerCase();
  const upper = token.text.toUpperCase();
  const turn = TURN_WORDS.get(word);
  if (turn !== undefined) return takeTurn(scan, token, turn);
  if (isEdge(upper) && scan.edge === null) {
    scan.edge = upper;
    scan.pending = token;
    return null;
  }
  if (scan.pending !== null) return trouble(token, `a turn after “${scan.pending.text}”`);
  const mark = CHANGE_WORDS.get(word);
  if (mark === undefined) return takeAnnotation(scan.moves, token, word);
  scan.change = mark;
  scan.pending = token;
  return null;
}

function takeTurn(scan: Scan, token: Token, turn: TurnType): Problem | null {
  const edge: Result<Edge> = scan.edge === null ? impliedEdge(scan, token) : ok(scan.edge);
  if (!edge.ok) return edge.error;
  if (scan.moves.length === MAX_MOVES) return tooLong('more moves', `at most ${MAX_MOVES} moves`);
  scan.moves.push({ ...PLAIN, turn, edge: edge.value, change: scan.change });
  scan.change = null;
  scan.edge = null;
  scan.pending = null;
  return null;
}

const PLAIN = { share: null, body: false, rotation: null, direction: null, credit: 1 } as const;

function* tokensOf(text: string): Generator<Token> {
  const lines = text.split(/\r?\n/);
  for (const [at, line] of lines.entries())
    for (const match of line.matchAll(/[/~]|@?\d+,\d+%?|[^\s,;/~]+/g))
      yield { text: match[0], line: at + 1, column: match.index + 1 };
}

/** The edge that the move before leads to; a twizzle leads to any, so nothing can be left out there. */
function impliedEdge({ moves, change }: Scan, token: Token): Result<Edge> {
  const before = moves.at(-1);
  if (before === undefined) return fail(trouble(token, `an edge (${EDGES.join(', ')}) before the first turn`));
  if (change !== null) return fail(trouble(token, 'an edge after the change'));
  const { exits } = turnGeometry(before.turn, before.edge);
  const [only] = exits;
  if (exits.length === 1 && only !== undefined) return ok(only);
  return fail(trouble(token, `an edge before the turn, because a ${before.turn} may leave on any`));
}

const PERCENT = /^(\d{1,3}(?:[.,]\d{1,6})?)%$/;
const CREDIT = /^@(\d(?:[.,]\d{1,6})?)$/;

function takeAnnotation(moves: WrittenMove[], token: Token, word: string): Problem | null {
  const move = moves.pop();
  if (move === undefined) return trouble(token, `an edge (${EDGES.join(', ')}) and a turn to begin with`);
  const added = annotation(word);
  if (added === null)
    return trouble(token, 'an edge, a turn, a share (5%), body, left, right, cw, ccw or a chance (@0.9)');
  const direction = added.direction == null ? null : turnedOtherwise(move, token, added.direction);
  moves.push({ ...move, ...added });
  return direction;
}

function annotation(word: string): Partial<WrittenMove> | null {
  if (word === 'body' || word === 'b') return { body: true };
  if (word === 'left' || word === 'right') return { rotation: word };
  if (word === 'cw' || word === 'ccw') return { direction: word };
  const percent = numberOf(PERCENT, word);
  if (percent !== null && percent <= 100) return { share: Number((percent / 100).toFixed(DECIMALS + 2)) };
  const credit = numberOf(CREDIT, word);
  return credit !== null && credit <= 1 ? { credit } : null;
}

function turnedOtherwise(move: WrittenMove, token: Token, direction: Direction): Problem | null {
  const geometry = turnGeometry(move.turn, move.edge);
  if (isFreeDirection(move.turn) || geometry.direction === direction) return null;
  return trouble(token, `${geometry.direction}, because a ${move.turn} from ${move.edge} rotates that way`);
}

const numberOf = (pattern: RegExp, word: string): number | null => {
  const match = pattern.exec(word);
  return match?.[1] === undefined ? null : Number(match[1].replace(',', '.'));
};

function trouble(token: Token, expected: string, after?: string): Problem {
  return {
    code: 'steps.text',
    at: `line ${token.line}, column ${token.column}`,
    found: after === undefined ? `“${token.text.slice(0, 30)}”` : `${token.text} after “${after}”`,
    expected,
    advice: 'Write moves as “LFO rocker, LBO counter 5% body”; abbreviations are Ro Co Br Lo Tw Ch 3 Mo.',
  };
}

const tooLong = (found: string, expected: string): Problem => ({
  code: 'steps.text',
  at: 'line 1, column 1',
  found,
  expected,
  advice: 'Give one step sequence at a time.',
});

/**
 * Writes moves as the line that `parseSteps` reads back to the same values. Every edge is written out;
 * what is usual (no body movement, chance 1) is left out. Shares are exact to a ten-thousandth of a percent.
 */
export function formatSteps(moves: readonly WrittenMove[]): string {
  return moves.map(formatMove).join(', ');
}

function formatMove(move: WrittenMove): string {
  const parts = [
    move.change === null ? '' : move.change === 'foot' ? '/' : '~',
    `${move.edge} ${move.turn}`,
    move.direction ?? '',
    move.share === null ? '' : `${decimal(move.share * 100)}%`,
    move.body ? 'body' : '',
    move.rotation ?? '',
    move.credit === 1 ? '' : `@${decimal(move.credit)}`,
  ];
  return parts.filter((part) => part !== '').join(' ');
}

const decimal = (n: number): string => String(Number(n.toFixed(DECIMALS)));
