import { ok, type Result } from '../../notation/index.ts';
import type { ChosenRules } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { checkLayout } from '../check/check.ts';
import type { CheckResult } from '../check/types.ts';
import { candidates } from './candidates.ts';
import type { Mend, MendStep } from './types.ts';

export interface MendOptions {
  /** Codes of hers that may come in: other versions, earlier sheets. Nothing else is suggested, but easier forms. */
  readonly repertoire: readonly string[];
  /** Ways that are offered at most. */
  readonly top: number;
}

interface Tried {
  readonly layout: Layout;
  readonly check: CheckResult;
  readonly steps: readonly MendStep[];
  readonly addsJump: boolean;
}

/** Changes that a way may have; more than two is another layout, not a mended one. */
const MOST_STEPS = 2;
/** Layouts from which the next step is looked for. */
const BEAM = 4;

const brokenIn = ({ verdicts }: CheckResult) => verdicts.filter((v) => v.status === 'broken');
const rulesBroken = (check: CheckResult): readonly string[] => [...new Set(brokenIn(check).map((v) => v.rule))];
/** How much is broken: elements concerned, one for a rule on the whole program. */
const weightOf = (check: CheckResult): number =>
  brokenIn(check).reduce((sum, v) => sum + Math.max(1, v.elements.length), 0);

/** Lost on the day by broken rules; something that costs nothing is not worth a harder change. */
const worthOf = ({ withBonus, base }: CheckResult): number => withBonus ?? base ?? 0;

/** The rule stands, and nothing is broken that was not broken before. */
function mends(after: CheckResult, rule: string, before: ReadonlySet<string>): boolean {
  const broken = rulesBroken(after);
  return !broken.includes(rule) && broken.every((r) => before.has(r));
}

/** Least broken first, then what is worth most, then without an added jump. */
const better = (a: Tried, b: Tried): number =>
  rulesBroken(a.check).length - rulesBroken(b.check).length ||
  weightOf(a.check) - weightOf(b.check) ||
  Number(a.addsJump) - Number(b.addsJump) ||
  worthOf(b.check) - worthOf(a.check);

function expand(from: Tried, chosen: ChosenRules, repertoire: readonly string[]): readonly Tried[] {
  return candidates(from.layout, repertoire).flatMap(({ step, layout, addsJump }) => {
    const check = checkLayout(layout, chosen);
    if (!check.ok) return [];
    return [{ layout, check: check.value, steps: [...from.steps, step], addsJump: from.addsJump || addsJump }];
  });
}

/** Of each kind of way the best one, so that the choice is a choice. */
function varied(found: readonly Tried[], top: number): readonly Tried[] {
  const byKind = new Map<string, Tried>();
  for (const one of found.toSorted(better)) {
    const last = one.steps.at(-1);
    const kind = `${last?.kind ?? ''} ${last?.kind === 'change' ? last.no : ''} ${one.addsJump}`;
    if (!byKind.has(kind)) byKind.set(kind, one);
  }
  return [...byKind.values()].sort(better).slice(0, top);
}

function toMend({ check, steps, layout, addsJump }: Tried, before: CheckResult): Mend {
  return {
    steps,
    codes: layout.elements.map((e) => e.code),
    stillBroken: rulesBroken(check),
    change: check.withBonus === null || before.withBonus === null ? null : check.withBonus - before.withBonus,
    addsJump,
  };
}

/**
 * The smallest changes that mend one broken rule (its name, as in the verdict): an element taken out,
 * changed, exchanged with another or added. First all single changes are tried, then two from
 * the most promising ones; every way that is offered breaks nothing new. Empty: none was found.
 */
export function mend(
  layout: Layout,
  chosen: ChosenRules,
  rule: string,
  { repertoire, top }: MendOptions,
): Result<readonly Mend[]> {
  const before = checkLayout(layout, chosen);
  if (!before.ok) return before;
  const broken = new Set(rulesBroken(before.value));
  if (!broken.has(rule)) return ok([]);
  let open: readonly Tried[] = [{ layout, check: before.value, steps: [], addsJump: false }];
  for (let depth = 0; depth < MOST_STEPS; depth += 1) {
    const tried = open.flatMap((one) => expand(one, chosen, repertoire));
    const good = tried.filter((one) => mends(one.check, rule, broken));
    if (good.length > 0) return ok(varied(good, top).map((one) => toMend(one, before.value)));
    open = tried.toSorted(better).slice(0, BEAM);
  }
  return ok([]);
}
