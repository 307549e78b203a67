import { formatElement } from '../../notation/index.ts';
import type { ChosenRules, Hundredths, Rulebook } from '../../rulebook/index.ts';
import { sumOrNull } from '../arithmetic.ts';
import type { Layout } from '../layout.ts';
import type { Protocol } from '../protocol.ts';
import { deductionFindings } from './deduction-check.ts';
import type { Audit, Finding } from './finding.ts';
import { halfFindings, halfWarning } from './half-check.ts';
import { valueElements, type ValuedElement } from './measure.ts';
import { measureRows, type Rows } from './panel-way.ts';
import { componentFigures } from './component-figures.ts';
import { elementFigures } from './element-figures.ts';
import { sumFigures, type Sums } from './sum-figures.ts';
import { shownPoints } from './wrong-figure.ts';
import { planFindings } from './plan-check.ts';
import { unreadableFindings } from './unreadable.ts';

export interface AuditOptions {
  /** Rulebooks of other seasons, asked for only when a base value differs, to recognise a base value taken from one of them. */
  readonly otherSeasons?: () => readonly Rulebook[];
  /** What was planned: codes that differ are possible slips. */
  readonly layout?: Layout | null;
}

/**
 * Compares every printed figure of a protocol with what codes, calls, marks, factors and deductions
 * give. Expected figures never come from another printed one, save where nothing on the sheet gives
 * them (marks missing though the element has value): there the printed figure stands unchecked.
 * Calls, levels and grades are field of play and never a finding. Units: hundredths.
 */
export function audit(protocol: Protocol, rules: ChosenRules, options: AuditOptions = {}): Audit {
  const valued = valueElements(protocol, rules);
  const rows = measureRows(protocol, valued, rules);
  const sums = expectedSums(protocol, rows, rules);
  return {
    id: protocol.id,
    rulebook: rules.id,
    elements: rows.elements.map(({ printed, called, base, goe, score }) => ({
      no: printed.no,
      base,
      goe,
      score,
      element: called.element,
      half: called.half,
      fall: called.fall,
      feedback: called.feedback,
    })),
    components: rows.components.map(({ printed, score, factor }) => ({ name: printed.name, score, factor })),
    ...sums,
    panel: rows.panel,
    findings: [
      ...(options.layout ? planFindings(valued, options.layout) : []),
      ...findingsOf(protocol, valued, rows, sums, rules, options.otherSeasons ?? (() => [])),
    ],
    warnings: warningsOf(protocol, valued, rows, rules),
  };
}

function findingsOf(
  protocol: Protocol,
  valued: readonly ValuedElement[],
  rows: Rows,
  sums: Sums,
  rules: ChosenRules,
  others: () => readonly Rulebook[],
): readonly Finding[] {
  const elements = elementFigures(rows, rules, others);
  const components = componentFigures(rows, rules, protocol);
  return [
    ...unreadableFindings(protocol, rows, rules),
    ...(protocol.category === null
      ? []
      : deductionFindings(
          protocol,
          valued.map((one) => one.called),
          rules,
        )),
    ...(protocol.segment === null ? [] : halfFindings(protocol, valued, rules)),
    ...elements.findings,
    ...components.findings,
    ...sumFigures(protocol, rows, sums, rules, { elements: elements.parts, components: components.parts }),
  ];
}

/** Sums over something unknown are null; a sheet without elements or components has no such sum. */
function expectedSums(protocol: Protocol, rows: Rows, rules: ChosenRules): Sums {
  const tes = rows.elements.length === 0 ? null : sumOrNull(rows.elements.map((row) => row.score));
  const untold = rows.components.length === 0 || lacksComponents(protocol, rows, rules);
  const pcs = untold ? null : sumOrNull(rows.components.map((row) => row.points));
  const deductions = protocol.deductions?.total ?? null;
  const bonus = protocol.bonus ?? 0;
  return { tes, pcs, deductions, total: expectedTotal(protocol, sumOrNull([tes, pcs, bonus]), deductions) };
}

/**
 * A sheet may lack a line of components, and then its printed sum is larger than the rest by about one of
 * them or more: what the sum should be cannot be told.
 */
function lacksComponents(protocol: Protocol, rows: Rows, rules: ChosenRules): boolean {
  const present = rows.components.length;
  const known = rules.values.components(rules.category, rules.segment).list.length;
  const sum = sumOrNull(rows.components.map((row) => row.points));
  if (present >= known || protocol.pcs === null || sum === null) return false;
  return protocol.pcs - sum > sum / (2 * present);
}

/** Without a line of deductions the total is known only where it shows that nothing, or less than nothing, was deducted. */
function expectedTotal(
  protocol: Protocol,
  gained: Hundredths | null,
  deductions: Hundredths | null,
): Hundredths | null {
  if (gained === null || deductions !== null) return sumOrNull([gained, deductions]);
  return protocol.total !== null && protocol.total >= gained ? gained : null;
}

function warningsOf(
  protocol: Protocol,
  valued: readonly ValuedElement[],
  rows: Rows,
  rules: ChosenRules,
): readonly string[] {
  const own = [rows.warning, factorWarning(protocol, rows, rules), halfWarning(protocol, valued, rules)];
  const missing = lacksComponents(protocol, rows, rules)
    ? [
        `The sheet has ${rows.components.length} components, this category more: the total component score stands unchecked.`,
      ]
    : [];
  return [
    ...new Set([
      ...rules.warnings,
      ...protocol.warnings,
      ...own.filter((warning) => warning !== null),
      ...missing,
      ...unknownValues(rows, rules),
    ]),
  ];
}

const unknownValues = (rows: Rows, rules: ChosenRules): readonly string[] =>
  rows.elements.flatMap(({ called, value }) =>
    called.element !== null && (value?.unknown.length ?? 0) > 0
      ? [
          `${formatElement(called.element)}: rulebook ${rules.id} has no value for it; the printed figures stand unchecked.`,
        ]
      : [],
  );

/** A sheet that closes with a factor of its own keeps it, but says so; without any factor the sums are not told. */
function factorWarning(protocol: Protocol, rows: Rows, rules: ChosenRules): string | null {
  const known = rules.values.components(rules.category, rules.segment).factor;
  if (rows.components.some((row) => row.score !== null && row.factor === null))
    return `No component factor is printed, and rulebook ${rules.id} knows none for ${rules.category}, ${rules.segment}: the component score and the total stand unchecked.`;
  const other = rows.components.find((row) => row.factor !== null && known !== null && row.factor !== known)?.factor;
  if (known === null || other == null || protocol.category === null || protocol.segment === null) return null;
  return `The sheet's component factor ${shownPoints(other)} is not that of rulebook ${rules.id} for ${rules.category}, ${rules.segment} (${shownPoints(known)}); the sheet's is used.`;
}
