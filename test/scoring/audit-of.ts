import { chooseRules, shippedLibrary } from '../../src/rulebook/index.ts';
import { audit, readProtocol, type Audit } from '../../src/scoring/index.ts';

/** Audit of a protocol in its JSON form, with the rules that its heading chooses. */
export function auditOf(form: unknown): Audit {
  const protocol = readProtocol(form);
  if (!protocol.ok) throw new Error(JSON.stringify(protocol.error));
  const { rulebook, body, season, date, category, segment } = protocol.value;
  const rules = chooseRules(shippedLibrary(), {
    rulebook: rulebook ?? undefined,
    body: body ?? undefined,
    season: season ?? undefined,
    date: date ?? undefined,
    category: category ?? undefined,
    segment: segment ?? undefined,
  });
  if (!rules.ok) throw new Error(JSON.stringify(rules.error));
  return audit(protocol.value, rules.value);
}
