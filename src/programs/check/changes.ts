import { ok, type Result } from '../../notation/index.ts';
import type { ChosenRules, Hundredths } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { checkLayout } from './check.ts';
import type { CheckResult, Verdict } from './types.ts';

/** A rule that says something else of this layout under the other rules; null: it does not speak of it. */
export interface RuleChange {
  readonly rule: string;
  readonly before: Verdict | null;
  readonly after: Verdict | null;
}

/** What other rules (the next season's, another category's) do to a layout. */
export interface LayoutChanges {
  readonly id: string | null;
  readonly before: CheckResult;
  readonly after: CheckResult;
  /** Only what changes. Changes that break something come first. */
  readonly changes: readonly RuleChange[];
  /** Sum of base values with bonus as called, after minus before; null: a value is not known. */
  readonly difference: Hundredths | null;
}

const sameVerdict = (a: Verdict | null, b: Verdict | null): boolean =>
  a !== null && b !== null && a.status === b.status && a.message === b.message;

const weight = ({ after }: RuleChange): number =>
  after?.status === 'broken' ? 0 : after?.status === 'unknown' ? 1 : 2;

/** Checks a layout under two sets of rules and keeps the differences. */
export function layoutChanges(layout: Layout, before: ChosenRules, after: ChosenRules): Result<LayoutChanges> {
  const now = checkLayout(layout, before);
  const then = checkLayout(layout, after);
  if (!now.ok) return now;
  if (!then.ok) return then;
  const of = (result: CheckResult, rule: string): Verdict | null =>
    result.verdicts.find((v) => v.rule === rule) ?? null;
  const rules = [...new Set([...now.value.verdicts, ...then.value.verdicts].map((v) => v.rule))];
  const changes = rules
    .map((rule): RuleChange => ({ rule, before: of(now.value, rule), after: of(then.value, rule) }))
    .filter((change) => !sameVerdict(change.before, change.after))
    .sort((a, b) => weight(a) - weight(b));
  const [base, next] = [now.value.withBonus, then.value.withBonus];
  return ok({
    id: layout.id,
    before: now.value,
    after: then.value,
    changes,
    difference: base === null || next === null ? null : next - base,
  });
}
