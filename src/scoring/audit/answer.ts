import { toPoints } from '../form-fields.ts';
import type { Audit } from './finding.ts';

/** The audit as commands and the server print it: points as numbers, fields of the contract alone. */
export function auditAnswer(audit: Audit): object {
  const { id, rulebook, elements, components, tes, pcs, deductions, total, findings, warnings } = audit;
  return {
    id,
    rulebook,
    elements: elements.map(({ no, base, goe, score }) => ({
      no,
      base: toPoints(base),
      goe: toPoints(goe),
      score: toPoints(score),
    })),
    components: components.map(({ name, score }) => ({ name, score: toPoints(score) })),
    tes: toPoints(tes),
    pcs: toPoints(pcs),
    deductions: toPoints(deductions),
    total: toPoints(total),
    findings,
    ...(warnings.length > 0 ? { warnings } : {}),
  };
}
