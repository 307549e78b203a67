import { ok, type Result } from '../../notation/index.ts';
import type { ChosenRules, Hundredths } from '../../rulebook/index.ts';
import { elementValue, type Layout } from '../../scoring/index.ts';
import { underCap } from '../elsewhere/under-caps.ts';
import { readPlannedElements } from '../planned.ts';
import { cite, segmentRules } from '../segment-rules.ts';
import { walk } from '../walk.ts';
import { consequence, lossOf } from './consequences.ts';
import { doubts, otherVerdicts } from './other-lines.ts';
import { PROGRAM_LINES, type ProgramLine } from './program-lines.ts';
import type { CheckFacts, CheckResult, Verdict } from './types.ts';
import { verdict } from './verdict.ts';

/** One rule of the calling automaton as a verdict; null where the layout does not touch it. */
function lineVerdict(line: ProgramLine, facts: CheckFacts): Verdict | null {
  const hits = facts.planned.flatMap((planned, index) => {
    const reasons = (facts.walk.called[index]?.reasons ?? []).filter((r) => r.rule === line.rule);
    return reasons.length > 0 ? [{ planned, index, reasons }] : [];
  });
  const missing = facts.walk.missing.filter((m) => m.rule === line.rule);
  const broken = [...hits.flatMap(({ reasons }) => reasons), ...missing].map((one) => one.path);
  const says = line.says(facts, broken);
  const { rule } = line;
  if (hits.length === 0 && missing.length === 0) {
    if (!line.concerns(facts)) return null;
    const status = line.known(facts.rules.content, facts) ? 'met' : 'unknown';
    return verdict({ rule, status, says }, cite(facts.rules, line.path));
  }
  const path = hits[0]?.reasons[0]?.path ?? missing[0]?.path ?? line.path;
  const lost = hits.map(({ index, reasons }) => lossOf(facts, index, reasons));
  return verdict(
    {
      rule,
      status: 'broken',
      elements: hits.map(({ planned }) => planned.no),
      says,
      consequence: [
        ...hits.map(({ planned, reasons }) => consequence(planned, reasons)),
        ...missing.map((m) => `missing: ${m.required - m.done}, which scores 0 by itself`),
      ].join('; '),
      cost: lost.reduce<Hundredths | null>((a, b) => (a === null || b === null ? null : a + b), 0),
    },
    cite(facts.rules, path),
  );
}

function noContent(facts: CheckFacts): readonly Verdict[] {
  if (facts.rules.contentKnown) return [];
  const { chosen } = facts.rules;
  const says = `No content rules are known for ${chosen.category}, ${chosen.segment} program, in ${chosen.content.title}`;
  return [verdict({ rule: 'segment', status: 'unknown', says }, cite(facts.rules, 'jumpElements'))];
}

const legality = (verdicts: readonly Verdict[]): boolean | null => {
  if (verdicts.some((v) => v.status === 'broken')) return false;
  return verdicts.some((v) => v.status === 'unknown') ? null : true;
};

function baseSum(facts: CheckFacts, withBonus: boolean): Hundredths | null {
  return facts.walk.called.reduce<Hundredths | null>((total, { element, half }) => {
    const counted = underCap(element, facts.rules);
    const { base } = elementValue(facts.rules.chosen.values, counted, { half: withBonus && half });
    return total === null || base === null ? null : total + base;
  }, 0);
}

/** Every verdict on a program that has been read. */
export const verdictsOn = (facts: CheckFacts): readonly Verdict[] => [
  ...noContent(facts),
  ...PROGRAM_LINES.flatMap((line) => lineVerdict(line, facts) ?? []),
  ...otherVerdicts(facts),
];

function warningsOf(facts: CheckFacts, layout: Layout): readonly string[] {
  const assumed = facts.planned.filter((p) => p.levelAssumed).map((p) => p.code);
  const levels =
    assumed.length > 0
      ? [`Planned without a level, counted at the highest of the category: ${assumed.join(', ')}.`]
      : [];
  return [...layout.warnings, ...facts.rules.chosen.warnings, ...doubts(facts), ...levels];
}

/**
 * Checks a layout against the rules of its segment and simulates, in skating order, what a panel would
 * do with everything skated as planned. Points are hundredths. A code that cannot be read is a problem.
 */
export function checkLayout(layout: Layout, chosen: ChosenRules): Result<CheckResult> {
  const rules = segmentRules(chosen);
  const planned = readPlannedElements(layout, rules);
  if (!planned.ok) return planned;
  const facts: CheckFacts = {
    rules,
    planned: planned.value,
    walk: walk(planned.value, rules),
    duration: layout.duration,
  };
  const verdicts = verdictsOn(facts);
  return ok({
    id: layout.id,
    rulebook: chosen.id,
    legal: legality(verdicts),
    verdicts,
    base: baseSum(facts, false),
    withBonus: baseSum(facts, true),
    warnings: warningsOf(facts, layout),
  });
}
