import * as z from 'zod';

import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import { checkForm, heading, problemOf, readHeading } from '../scoring/index.ts';
import type { Move } from './step-sequence.ts';
import { MAX_MOVES, parseSteps, type WrittenMove } from './step-text.ts';
import { DIRECTIONS, EDGES, TURNS, isFreeDirection, turnGeometry } from './turns.ts';

/** Shares are sums of doubles. */
const SUM_TOLERANCE = 1e-6;

const share = z
  .number({ error: 'a share from 0 to 1' })
  .min(0, { error: 'a share from 0 to 1' })
  .max(1 + SUM_TOLERANCE, { error: 'a share from 0 to 1' });
export const creditField = z
  .number({ error: 'a chance from 0 to 1' })
  .min(0, { error: 'a chance from 0 to 1' })
  .max(1, { error: 'a chance from 0 to 1' });

const move = z.looseObject(
  {
    turn: z.enum(TURNS, { error: `a turn: ${TURNS.join(', ')}` }),
    edge: z.enum(EDGES, { error: `an entry edge: ${EDGES.join(', ')}` }),
    share: share.nullish(),
    body: z.boolean({ error: 'true or false' }).nullish(),
    rotation: z.enum(['left', 'right'], { error: 'left, right or null' }).nullish(),
    direction: z.enum(DIRECTIONS, { error: 'cw or ccw' }).nullish(),
    credit: creditField.nullish(),
    change: z.enum(['foot', 'edge'], { error: 'foot or edge' }).nullish(),
  },
  { error: 'a move with turn and edge' },
);
type MoveForm = z.infer<typeof move>;

const EXPECTED_MOVES = `a list of at most ${MAX_MOVES} moves, or the line of text`;

/** The JSON (or YAML) form of a planned step sequence; `moves` may be the line that coaches type. */
export const stepsForm = z
  .looseObject(
    {
      ...heading,
      kind: z.literal('steps', { error: 'steps' }),
      moves: z.union([z.string(), z.array(move).max(MAX_MOVES, { error: EXPECTED_MOVES })], { error: EXPECTED_MOVES }),
    },
    { error: 'a step sequence as an object' },
  )
  .meta({ title: 'Steps', description: 'A planned step sequence: its moves in skating order.' });

/** A step sequence as read, with the fields that choose its rules. */
export interface StepsForm extends ReturnType<typeof readHeading> {
  readonly kind: 'steps';
  readonly moves: readonly Move[];
  readonly warnings: readonly string[];
}

/** Reads a step sequence. Shares that nobody gave are equal, and a warning says so. */
export function readSteps(value: unknown): Result<StepsForm> {
  const checked = checkForm(stepsForm, value, 'steps.form');
  if (!checked.ok) return checked;
  const moves = readMoves(checked.value.moves, value);
  if (!moves.ok) return moves;
  return ok({ ...readHeading(checked.value), kind: 'steps', ...withShares(moves.value) });
}

function readMoves(given: string | readonly MoveForm[], root: unknown): Result<readonly WrittenMove[]> {
  if (typeof given === 'string') {
    const parsed = parseSteps(given);
    return parsed.ok ? sharesInRange(parsed.value, root) : fail({ ...parsed.error, at: `moves, ${parsed.error.at}` });
  }
  const trouble = given.map((one, index) => directionProblem(one, index, root)).find((problem) => problem !== null);
  return trouble ? fail(trouble) : sharesInRange(given.map(toMove), root);
}

const toMove = (form: MoveForm): WrittenMove => ({
  turn: form.turn,
  edge: form.edge,
  share: form.share ?? null,
  body: form.body ?? false,
  rotation: form.rotation ?? null,
  direction: form.direction ?? null,
  credit: form.credit ?? 1,
  change: form.change ?? null,
});

/** Only a twizzle or a choctaw can be turned the other way; a rocker the other way is a counter. */
function directionProblem(form: MoveForm, index: number, root: unknown): Problem | null {
  if (form.direction == null || isFreeDirection(form.turn)) return null;
  const { direction } = turnGeometry(form.turn, form.edge);
  if (direction === form.direction) return null;
  const path = ['moves', index, 'direction'];
  const expected = `${direction}: a ${form.turn} from ${form.edge} rotates that way`;
  return {
    ...problemOf(path, root, expected, 'steps.direction'),
    advice: 'Leave the direction out, or name the turn that was meant.',
  };
}

function sharesInRange(moves: readonly WrittenMove[], root: unknown): Result<readonly WrittenMove[]> {
  const sum = moves.reduce((all, one) => all + (one.share ?? 0), 0);
  if (sum <= 1 + SUM_TOLERANCE) return ok(moves);
  return fail({
    ...problemOf(['moves'], root, 'shares that sum to at most 1', 'steps.shares'),
    found: `shares that sum to ${Number(sum.toFixed(6))}`,
    advice: 'Each share is the part of the whole pattern; lower them until they sum to 1 or less.',
  });
}

/** Settles the shares: with none given each move gets the same, otherwise an absent one is 0. */
export function withShares(drafts: readonly WrittenMove[]): { readonly moves: Move[]; readonly warnings: string[] } {
  const none = drafts.length > 0 && drafts.every((one) => one.share === null);
  const moves = drafts.map((one) => ({ ...one, share: none ? 1 / drafts.length : (one.share ?? 0) }));
  return { moves, warnings: none ? ['No shares of the pattern were given: equal shares were taken.'] : [] };
}
