import { ok, type Result } from '../../notation/index.ts';
import { bestJson, bestLayouts, bestText, parseObjective, rulesFor } from '../../programs/index.ts';
import { libraryInUse } from '../overlays.ts';
import { readInventory } from '../../scoring/index.ts';
import type { Answer } from '../answer-each.ts';
import { UsageError, type Io } from '../io.ts';
import { evidenceFrom } from './program-evidence.ts';
import type { BestCliOptions } from './best.ts';

/** Layouts that the answer for people looks at, to name the next best and a safe one. */
const COMPARED = 5;
/** Most layouts that one answer lists. */
const MOST = 1000;

function wholeNumber(text: string, option: string, most: number): number {
  const value = Number(text);
  if (Number.isInteger(value) && value >= 1 && value <= most) return value;
  throw new UsageError(`${option}: found “${text}”; expected a whole number from 1 to ${most}.`);
}

/** Stops a search when its time is over; the clock is asked now and then only. */
export function stopAfter(seconds: number): () => boolean {
  const end = performance.now() + seconds * 1000;
  let asked = 0;
  let over = false;
  return () => {
    asked = (asked + 1) % 64;
    if (asked === 0) over = performance.now() > end;
    return over;
  };
}

/** Seconds from an option. */
export function readSeconds(text: string): number {
  const seconds = Number(text);
  if (text.trim() !== '' && Number.isFinite(seconds) && seconds > 0) return seconds;
  throw new UsageError(`--seconds: found “${text}”; expected a number above 0.`);
}

/** Answers `best` for one inventory after the other. */
export async function bestAnswerer(options: BestCliOptions, io: Io): Promise<(value: unknown) => Result<Answer>> {
  const objective = parseObjective(options.objective);
  if (!objective.ok) {
    const { found, expected, advice } = objective.error;
    throw new UsageError(`--objective: found ${found}; expected ${expected}. ${advice}`);
  }
  const top = wholeNumber(options.top, '--top', MOST);
  const seconds = readSeconds(options.seconds);
  const evidence = await evidenceFrom(options.history, io);
  return (value) => {
    const inventory = readInventory(value);
    if (!inventory.ok) return inventory;
    const rules = rulesFor(libraryInUse(), inventory.value, { rulebook: options.rulebook, as: options.as });
    if (!rules.ok) return rules;
    const date = options.date ?? inventory.value.date;
    const result = bestLayouts(inventory.value, rules.value, objective.value, {
      top: options.json === true ? top : Math.max(top, COMPARED),
      date,
      evidence: evidence(inventory.value),
      shouldStop: stopAfter(seconds),
    });
    if (!result.ok) return result;
    return ok({ json: bestJson(result.value, top), text: () => bestText(result.value, top), act: false });
  };
}
