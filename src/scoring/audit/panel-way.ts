import type { ChosenRules } from '../../rulebook/index.ts';
import { goeByMeanGrade } from '../goe.ts';
import type { PanelRule } from '../panel.ts';
import type { Protocol } from '../protocol.ts';
import {
  measureComponent,
  measureElement,
  type MeasuredComponent,
  type MeasuredElement,
  type ValuedElement,
} from './measure.ts';

/** The panel's rows of a sheet under one way of averaging. */
export interface Rows {
  readonly panel: PanelRule;
  readonly elements: readonly MeasuredElement[];
  readonly components: readonly MeasuredComponent[];
  readonly warning: string | null;
}

/** A row that can tell the two ways apart must occur this often before a large panel is read untrimmed. */
const ENOUGH_ROWS = 3;
/** Fewer marks than this cannot lose the highest and the lowest. */
const SMALLEST_TRIMMED = 3;

/**
 * Measures all rows by the rulebook's panel rule. If rows do not close, and the whole sheet closes only
 * the other way (small panels trimmed, or large ones not), that way is used, with a warning.
 */
export function measureRows(protocol: Protocol, valued: readonly ValuedElement[], rules: ChosenRules): Rows {
  const rule = rules.values.values.panel;
  const byRule = rowsWith(protocol, valued, rules, rule);
  if (openRows(byRule, rules).length === 0) return byRule;
  for (const way of otherWays(rule)) {
    const rows = rowsWith(protocol, valued, rules, way.panel);
    const told = differing(byRule, rows);
    if (told >= way.enough && openRows(rows, rules).length === 0) return { ...rows, warning: way.warning };
  }
  return byRule;
}

const otherWays = (rule: PanelRule) => [
  {
    panel: { ...rule, trimFrom: SMALLEST_TRIMMED },
    enough: 1,
    warning: `This sheet closes only if the highest and the lowest mark are left out in panels of fewer than ${rule.trimFrom} too; it was read that way.`,
  },
  {
    panel: { ...rule, trimFrom: Infinity },
    enough: ENOUGH_ROWS,
    warning: 'This sheet closes only if no mark is left out; it was read that way.',
  },
];

function rowsWith(protocol: Protocol, valued: readonly ValuedElement[], rules: ChosenRules, panel: PanelRule): Rows {
  const { factor } = rules.values.components(rules.category, rules.segment);
  return {
    panel,
    elements: valued.map((one) => measureElement(one, rules.values.values.goe, panel)),
    components: protocol.components.map((printed) => measureComponent(printed, rules, factor, panel)),
    warning: null,
  };
}

/** Rows whose printed panel figure differs, a doubt about the order of averaging aside. */
function openRows(rows: Rows, rules: ChosenRules): readonly unknown[] {
  return [
    ...rows.elements.filter((row) => differs(row.printed.goe, row.goe) && !isMethod(row, rows.panel, rules)),
    ...rows.components.filter((row) => differs(row.printed.score, row.score)),
  ];
}

/** Both figures are known and are not the same. */
const differs = (published: number | null, expected: number | null): boolean =>
  published !== null && expected !== null && published !== expected;

/** Off by 0.01, and the other order of averaging gives the printed figure, in a season that leaves it open. */
export function isMethod(row: MeasuredElement, panel: PanelRule, rules: ChosenRules): boolean {
  const { goe, marks } = row.printed;
  if (rules.values.values.averagingEstablished || goe === null || row.goe === null || Math.abs(goe - row.goe) !== 1)
    return false;
  return row.value?.row != null && goeByMeanGrade(row.value.row, marks, panel).includes(goe);
}

const differing = (a: Rows, b: Rows): number =>
  a.elements.filter((row, i) => row.goe !== b.elements[i]?.goe).length +
  a.components.filter((row, i) => row.score !== b.components[i]?.score).length;
