import { describeProblem } from '../../../../src/notation/index.ts';
import { audit, readProtocol } from '../../../../src/scoring/index.ts';
import { rulesOf } from '../../data/rules.ts';

/** One quiet line: do the figures of the sheet agree? */
export function agreement(form: Record<string, unknown>): string {
  const protocol = readProtocol(form);
  if (!protocol.ok) return describeProblem(protocol.error);
  const { rulebook, body, season, date, category, segment } = protocol.value;
  const { rules, why } = rulesOf({
    rulebook: rulebook ?? undefined,
    body: body ?? undefined,
    season: season ?? undefined,
    date: date ?? undefined,
    category: category ?? undefined,
    segment: segment ?? undefined,
  });
  if (rules === null) return why;
  const wrong = audit(protocol.value, rules).findings.filter((f) => f.kind === 'calculation').length;
  if (wrong === 0) return 'All printed figures agree.';
  return wrong === 1
    ? 'One printed figure does not agree; the reading shows it.'
    : `${wrong} printed figures do not agree; they are shown in the reading.`;
}
