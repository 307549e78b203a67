import { ok, type Result } from '../../notation/index.ts';
import {
  bestJson,
  bestLayouts,
  bestText,
  ideasAround,
  ifSafer,
  moveTo,
  onlySkated,
  rulesFor,
  segmentRules,
  underCaps,
  type BestExtras,
  type BestOptions,
  type BestResult,
  type Move,
  type Objective,
  type Safer,
} from '../../programs/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import { readInventory, type Inventory } from '../../scoring/index.ts';
import type { Answer } from '../answer-each.ts';
import { UsageError, type Io } from '../io.ts';
import { libraryInUse } from '../overlays.ts';
import type { BestCliOptions } from './best.ts';
import { objectiveFrom } from './objective-option.ts';
import { evidenceFrom } from './program-evidence.ts';

/** Layouts that the answer for people looks at, to name the next best and a safe one. */
const COMPARED = 5;
/** Most layouts that one answer lists. */
const MOST = 1000;

function wholeNumber(text: string, option: string, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= most) return value;
  throw new UsageError(`${option}: found “${text}”; expected a whole number from 1 to ${most}.`);
}

/** Stops a search when its time is over; the time runs from now, so that preparing counts. */
export function stopAfter(seconds: number): () => boolean {
  const end = performance.now() + seconds * 1000;
  return () => performance.now() > end;
}

/** Seconds from an option. */
export function readSeconds(text: string): number {
  const seconds = Number(text);
  if (text.trim() !== '' && Number.isFinite(seconds) && seconds > 0) return seconds;
  throw new UsageError(`--seconds: found “${text}”; expected a number above 0.`);
}

/** `CODE` or `CODE:N`, N more times in 100. */
function readSafer(text: string | undefined): Safer | null {
  if (text === undefined) return null;
  const [code = '', figure = '10', ...more] = text.split(':');
  const times = Number(figure);
  if (code.trim() === '' || more.length > 0 || !(times > 0 && times <= 100))
    throw new UsageError(`--safer: found “${text}”; expected CODE or CODE:N, N from 1 to 100, such as 3Lz:10.`);
  return { code: code.trim(), by: times / 100 };
}

/** What the answer carries beside the layouts, as far as it was asked for. */
function extrasOf(asked: Asked, result: BestResult): Result<Partial<BestExtras>> {
  const { inventory, rules, objective, options, search } = asked;
  const safer = asked.safer === null ? ok(null) : ifSafer(result, inventory, rules, objective, asked.safer, search);
  if (!safer.ok) return safer;
  const move = options.as === undefined ? ok(null) : moveHere(asked);
  if (!move.ok) return move;
  const extras = { safer: safer.value, move: move.value };
  const [best] = result.layouts;
  if (best === undefined || (options.json === true && options.explain !== true)) return ok(extras);
  const held = result.excluded.map(({ code }) => code);
  const ideas = ideasAround(best, inventory, held, rules, objective, search, options.explain === true);
  return ideas.ok ? ok({ ...extras, ideas: ideas.value }) : ideas;
}

/** The inventory in its own category and in the one asked for; null where its own cannot be told. */
function moveHere({ given, rules, objective, options, search }: Asked): Result<Move | null> {
  const own = rulesFor(libraryInUse(), given, { rulebook: options.rulebook });
  return own.ok ? moveTo(given, own.value, rules, { objective, ...search }) : ok(null);
}

/** One question of `best`, read. */
interface Asked {
  /** As entered. */
  readonly given: Inventory;
  /** As the category asked for would call it. */
  readonly inventory: Inventory;
  readonly rules: ChosenRules;
  readonly objective: Objective;
  readonly safer: Safer | null;
  readonly options: BestCliOptions;
  readonly search: Pick<BestOptions, 'date' | 'evidence' | 'shouldStop'>;
}

/** Answers `best` for one inventory after the other. */
export async function bestAnswerer(options: BestCliOptions, io: Io): Promise<(value: unknown) => Result<Answer>> {
  const objective = objectiveFrom(options.objective);
  const top = wholeNumber(options.top, '--top', MOST);
  const seconds = readSeconds(options.seconds);
  const safer = readSafer(options.safer);
  const evidence = await evidenceFrom(options.history, io);
  return (value) => {
    const read = readInventory(value);
    if (!read.ok) return read;
    const rules = rulesFor(libraryInUse(), read.value, { rulebook: options.rulebook, as: options.as });
    if (!rules.ok) return rules;
    const date = options.date ?? read.value.date;
    const frozen = options.freeze !== undefined && date !== null && date >= options.freeze;
    const given = frozen ? onlySkated(read.value) : read.value;
    const inventory = options.as === undefined ? given : underCaps(given, segmentRules(rules.value)).inventory;
    const search = { date, evidence: evidence(inventory), shouldStop: stopAfter(seconds) };
    const asked = { given, inventory, rules: rules.value, objective, safer, options, search };
    const looked = options.json === true ? top : Math.max(top, COMPARED);
    const result = bestLayouts(inventory, rules.value, objective, { ...search, top: looked });
    if (!result.ok) return result;
    const extras = extrasOf(asked, result.value);
    if (!extras.ok) return extras;
    return ok({
      json: bestJson(result.value, top, extras.value),
      text: () => bestText(result.value, top, extras.value),
      act: false,
    });
  };
}
