import { parseCode, type Element } from '../../notation/index.ts';
import { chooseRules, shippedLibrary, type ChosenRules, type RuleQuery, type Rulebook } from '../../rulebook/index.ts';
import { audit, readProtocol, type Audit, type AuditOptions } from '../index.ts';

/** The ISU rulebook of a season. */
export function rulebookOf(season: string): Rulebook {
  return rulesOf({ season, category: 'senior women', segment: 'free' }).values;
}

export function rulesOf(query: RuleQuery): ChosenRules {
  const chosen = chooseRules(shippedLibrary(), query);
  if (!chosen.ok) throw new Error(JSON.stringify(chosen.error));
  return chosen.value;
}

export function elementOf(code: string): Element {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.error));
  return parsed.value.element;
}

/** Audit of a protocol form with the rules that its heading chooses. */
export function auditOf(form: object, options: AuditOptions = {}): Audit {
  const protocol = readProtocol(form);
  if (!protocol.ok) throw new Error(JSON.stringify(protocol.error));
  const { rulebook, body, season, date, category, segment } = protocol.value;
  const rules = rulesOf({
    rulebook: rulebook ?? undefined,
    body: body ?? undefined,
    season: season ?? undefined,
    date: date ?? undefined,
    category: category ?? undefined,
    segment: segment ?? undefined,
  });
  return audit(protocol.value, rules, options);
}
