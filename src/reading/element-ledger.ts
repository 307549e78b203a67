import type { Hundredths } from '../rulebook/index.ts';
import { isFieldOfPlay, isObliging, type Cause } from './causes.ts';
import { elementGame, score, type ElementGame, type ValueContext } from './game.ts';
import type { Planned } from './reference.ts';
import { shapleyShares } from './shapley.ts';
import type { Reference, Skated } from './sides.ts';
import type { LedgerEntry } from './types.ts';

/** One element's part of the account. */
export interface ElementAccount {
  readonly awarded: Hundredths;
  readonly reference: Hundredths;
  readonly entries: readonly LedgerEntry[];
}

/** Account of an element that both sides have; null where its score cannot be computed on one of them. */
export function pairedAccount(skated: Skated, reference: Reference, context: ValueContext): ElementAccount | null {
  const game = elementGame(skated, reference, context);
  if (game === null) return null;
  const shares = shapleyShares(game.causes.length, (set) => valueAt(game, set));
  const entries = game.causes.map((cause, i) => entryOf(skated, reference, game, cause, i, shares[i] ?? 0));
  return {
    awarded: valueAt(game, game.values.length - 1),
    reference: valueAt(game, 0),
    entries: entries.filter(isWorthALine),
  };
}

/** An element that was skated and not planned: all of it is content. */
export function addedAccount(skated: Skated, reference: Reference, context: ValueContext): ElementAccount | null {
  const game = elementGame(skated, reference, context);
  if (game === null) return null;
  const awarded = valueAt(game, game.values.length - 1);
  const entry = contentEntry(skated.no, skated.code, awarded, [`elements[${skated.index}].code`]);
  return { awarded, reference: 0, entries: [entry] };
}

/** An element that was planned and not skated: all of it is content. */
export function missingAccount(planned: Planned, context: ValueContext): ElementAccount | null {
  const reference = score(planned.element, planned.half ?? false, [planned.grade], context);
  if (reference === null) return null;
  const at = [`layout.elements[${planned.planned}].code`];
  return { awarded: 0, reference, entries: [contentEntry(planned.planned + 1, planned.code, -reference, at)] };
}

const contentEntry = (no: number | null, element: string, points: Hundredths, evidence: string[]): LedgerEntry => ({
  no,
  element,
  cause: 'content',
  points,
  winBack: 0 - points,
  evidence,
  fieldOfPlay: isFieldOfPlay('content'),
});

function entryOf(
  skated: Skated,
  reference: Reference,
  game: ElementGame,
  cause: Cause,
  place: number,
  points: Hundredths,
): LedgerEntry {
  const all = game.values.length - 1;
  const grades = isObliging(cause) ? game.obliged.get(cause)?.list : undefined;
  return {
    no: skated.no,
    element: skated.code,
    cause,
    points,
    winBack: valueAt(game, all & ~(1 << place)) - valueAt(game, all),
    evidence: evidenceOf(cause, skated, reference),
    fieldOfPlay: isFieldOfPlay(cause),
    ...(grades === undefined ? {} : { grades }),
  };
}

function valueAt(game: ElementGame, set: number): Hundredths {
  const value = game.values[set];
  if (value === undefined) throw new RangeError(`no value of set ${set}`);
  return value;
}

/** Calls are named even where they cost nothing; the rest is left out when it moves nothing. */
function isWorthALine(entry: LedgerEntry): boolean {
  const isCall = entry.cause !== 'content' && entry.cause !== 'level' && entry.cause !== 'execution';
  return isCall || entry.points !== 0 || entry.winBack !== 0;
}

/** Paths into the protocol that carry the cause. */
function evidenceOf(cause: Cause, skated: Skated, reference: Reference): string[] {
  const at = `elements[${skated.index}]`;
  const planned = reference.planned === null ? [] : [`layout.elements[${reference.planned}]`];
  switch (cause) {
    case 'execution':
      return [`${at}.marks`];
    case 'second-half':
      return [`${at}.half`, ...planned];
    case 'content':
      return [`${at}.code`, ...planned.map((path) => `${path}.code`)];
    case 'rotation':
    case 'edge':
    case 'fall':
      return [...callPlaces(skated, at), ...(skated.marks.length > 0 ? [`${at}.marks`] : [])];
    case 'V':
    case 'level':
      return [
        `${at}.code`,
        ...(skated.lettersIn === null || skated.lettersIn === 'code' ? [] : [`${at}.${skated.lettersIn}`]),
      ];
    case 'no-value':
    case 'repeat':
    case 'deduction':
    case 'bonus':
    case 'components':
      return callPlaces(skated, at);
  }
}

const callPlaces = (skated: Skated, at: string): string[] => [`${at}.code`, ...(skated.hasInfo ? [`${at}.info`] : [])];
