import { ok, type Result } from '../../notation/index.ts';
import {
  ASSUMED_EFFORT,
  layoutUnderCaps,
  plan,
  planText,
  rulesFor,
  segmentRules,
  underCaps,
  type Effort,
} from '../../programs/index.ts';
import { readInventory, readLayout, type Inventory, type Layout } from '../../scoring/index.ts';
import { allValues } from '../all-values.ts';
import type { Answer } from '../answer-each.ts';
import { UsageError, type Io } from '../io.ts';
import { libraryInUse } from '../overlays.ts';
import { readSeconds, stopAfter } from './best-answer.ts';
import { objectiveFrom } from './objective-option.ts';
import type { PlanFlags } from './plan.ts';
import { evidenceFrom } from './program-evidence.ts';

/** Weeks of work by kind of change: `safer=4,level=6`; the others stay as assumed. */
function effortFrom(text: string | undefined): Effort {
  const effort: Record<keyof Effort, number> = { ...ASSUMED_EFFORT };
  for (const part of (text ?? '').split(',').filter((one) => one.trim() !== '')) {
    const [name = '', figure = ''] = part.split('=').map((one) => one.trim());
    const kind = (Object.keys(effort) as (keyof Effort)[]).find((one) => one === name);
    const weeks = Number(figure);
    if (kind === undefined || !(weeks > 0)) {
      throw new UsageError(
        `--effort: found “${part}”; expected KIND=WEEKS with ${Object.keys(effort).join(', ')}, weeks above 0.`,
      );
    }
    effort[kind] = weeks;
  }
  return effort;
}

/** The layout of this skater and segment; a file with one layout is meant for every inventory. */
function layoutFor(layouts: readonly Layout[], inventory: Inventory): Layout | null {
  if (layouts.length <= 1) return layouts[0] ?? null;
  return layouts.find((l) => l.skater === inventory.skater && l.segment === inventory.segment) ?? null;
}

/** Answers `plan` for one inventory after the other. */
export async function planAnswerer(flags: PlanFlags, io: Io): Promise<(value: unknown) => Result<Answer>> {
  const objective = objectiveFrom(flags.objective);
  const effort = effortFrom(flags.effort);
  const seconds = readSeconds(flags.seconds);
  const layouts = flags.layout === undefined ? [] : await allValues(flags.layout, io, readLayout);
  const evidence = await evidenceFrom(flags.history, io);
  return (value) => {
    const read = readInventory(value);
    if (!read.ok) return read;
    const rules = rulesFor(libraryInUse(), read.value, { rulebook: flags.rulebook, as: flags.as });
    if (!rules.ok) return rules;
    const there = flags.as === undefined ? null : segmentRules(rules.value);
    const inventory = there === null ? read.value : underCaps(read.value, there).inventory;
    const given = layoutFor(layouts, inventory);
    const layout = there === null || given === null ? given : layoutUnderCaps(given, there);
    const date = flags.date ?? inventory.date;
    const frozen = flags.freeze !== undefined && date !== null && date >= flags.freeze;
    const result = plan(inventory, layout, rules.value, {
      objective,
      effort,
      frozen,
      date,
      evidence: evidence(inventory),
      shouldStop: stopAfter(seconds),
    });
    if (!result.ok) return result;
    return ok({ json: result.value, text: () => planText(result.value, objective), act: false });
  };
}
