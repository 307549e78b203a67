import { describeProblem, parseCode } from '../../../../src/notation/index.ts';
import { checkLayout, type CheckResult } from '../../../../src/programs/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { readLayout } from '../../../../src/scoring/index.ts';
import type { StripNote } from '../../figures/strip-note.ts';
import { words } from '../../words/index.ts';

/** A layout under its rules: verdicts, or why there are none. */
export interface Checked {
  readonly check: CheckResult | null;
  readonly problem: string | null;
}

/** `form` carries season, category and segment. */
export function verdictsOf(form: Record<string, unknown>, rules: ChosenRules | null): Checked {
  if (rules === null) return { check: null, problem: null };
  const read = readLayout(form);
  if (!read.ok) return { check: null, problem: describeProblem(read.error) };
  const check = checkLayout(read.value, rules);
  return check.ok ? { check: check.value, problem: null } : { check: null, problem: describeProblem(check.error) };
}

/** What stands in large letters at the head of a layout. */
export function headline({ check, problem }: Checked): string {
  if (problem !== null) return words.layout.oneCodeUnread;
  if (check === null) return words.layout.noRules;
  const broken = check.verdicts.filter((v) => v.status === 'broken').length;
  const unknown = check.verdicts.filter((v) => v.status === 'unknown').length;
  return [words.layout.broken(broken), ...(unknown === 0 ? [] : [words.layout.unknown(unknown)])].join(' ');
}

export function brokenIds(check: CheckResult | null, notes: readonly StripNote[]): Set<string> {
  const broken = check?.verdicts.filter((v) => v.status === 'broken') ?? [];
  return new Set(broken.flatMap((v) => v.elements.flatMap((no) => notes[no - 1]?.id ?? [])));
}

/** Which notes the second-half factor would fall on: the last ones of the segment that start after the half. */
export function bonusIds(rules: ChosenRules | null, notes: readonly StripNote[], seconds: number): Set<string> {
  const last = rules?.content.content(rules.category, rules.segment)?.bonusLast ?? null;
  if (last === null || last === 0) return new Set();
  const jumps = notes.filter((n) => {
    const parsed = parseCode(n.code);
    return parsed.ok && parsed.value.element.kind === 'jump';
  });
  const late = (last === 'all' ? jumps : jumps.slice(-last)).filter((n) => n.start >= seconds / 2);
  return new Set(late.map((n) => n.id));
}
