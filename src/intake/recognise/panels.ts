import type { Rulebook } from '../../rulebook/index.ts';
import type { PanelRule } from '../../scoring/index.ts';

/**
 * The rulebook's way to average a panel first, then the other one: small panels are averaged whole in
 * some places and trimmed in others, and the sheet as a whole shows which.
 */
export function panelRules(rulebook: Rulebook, marks: number): readonly PanelRule[] {
  const rule = rulebook.values.panel;
  const whole: PanelRule = { trimFrom: Infinity, drop: rule.drop };
  const trimmed: PanelRule = { trimFrom: 3, drop: Math.max(1, rule.drop) };
  return marks >= rule.trimFrom ? [rule, whole] : [rule, trimmed];
}
