import { withoutCalls, type Element, type JumpMarker } from '../../notation/index.ts';
import type { ChosenRules, Hundredths, Rulebook } from '../../rulebook/index.ts';
import { percentOf, roundedDivision } from '../arithmetic.ts';
import { elementValue } from '../element-value.ts';
import { pointsOfGrade } from '../goe.ts';
import { panelMean, type PanelRule } from '../panel.ts';
import { componentPoints } from '../segment.ts';
import type { MeasuredComponent, MeasuredElement } from './measure.ts';

/*
 * Each function names the one well-known slip that gives exactly the printed figure, or null. They are
 * asked only about figures that differ, so they may try many things. The first match is the commonest.
 */

type Tried = readonly (readonly [slip: string, result: Hundredths | null])[];

const match = (published: Hundredths, tried: Tried): string | null =>
  tried.find(([, result]) => result === published)?.[0] ?? null;

/** Slips of a base value: bonus, calls, markers, a missing jump, the table of another season. */
export function baseSlip(row: MeasuredElement, rules: ChosenRules, others: readonly Rulebook[]): string | null {
  const { element, half } = row.called;
  const published = row.printed.base;
  if (element === null || published === null) return null;
  const valueOf = (one: Element, credited = half, rulebook = rules.values): Hundredths | null =>
    elementValue(rulebook, one, { half: credited }).base;
  return match(published, [
    [half ? 'second-half bonus missing' : 'second-half bonus without its mark', valueOf(element, !half)],
    ['repeated jump not reduced', valueOf(without(element, 'REP'))],
    [sequenceSlip(rules), valueOf(without(element, 'SEQ'))],
    ['call not applied', valueOf(withoutCalls(element))],
    ['a jump of the combination left out', leftOutJump(element, published, (one) => valueOf(one))],
    ...others.map((book) => [`base value of the season ${book.season}`, valueOf(element, half, book)] as const),
    ...digitSlips(row.base),
  ]);
}

const sequenceSlip = (rules: ChosenRules): string =>
  `sequence factor ${(rules.values.values.sequence.percent / 100).toFixed(1)} not applied`;

const without = (element: Element, marker: JumpMarker): Element =>
  element.kind === 'jump'
    ? { ...element, markers: element.markers.filter((printed) => printed.marker !== marker) }
    : element;

function leftOutJump(
  element: Element,
  published: Hundredths,
  valueOf: (one: Element) => Hundredths | null,
): Hundredths | null {
  if (element.kind !== 'jump' || element.jumps.length < 2) return null;
  const fits = element.jumps.some(
    (_, left) => valueOf({ ...element, jumps: element.jumps.filter((__, i) => i !== left) }) === published,
  );
  return fits ? published : null;
}

/** Slips of a panel's grade of execution. */
export function goeSlip(row: MeasuredElement, rules: ChosenRules, panel: PanelRule): string | null {
  const { goe: published, marks } = row.printed;
  const values = row.value?.row;
  const { secondHalfPercent } = rules.values.values;
  if (published === null || row.goe === null || !values) return null;
  const points = marks.flatMap((mark) => (mark === null ? [] : (pointsOfGrade(values, mark) ?? [])));
  return match(published, [
    ...panelSlips(points, panel),
    ['second-half factor applied to the grades', row.called.half ? percentOf(row.goe, secondHalfPercent) : null],
    ...rowSlips(row, panel),
    ...digitSlips(row.goe),
  ]);
}

function rowSlips(row: MeasuredElement, panel: PanelRule): Tried {
  return (row.value?.jumps ?? []).map(({ row: other, jump }) => [
    `grades taken from the row of ${jump.turns}${jump.name}`,
    other === null
      ? null
      : panelMean(
          row.printed.marks.map((mark) => (mark === null ? null : pointsOfGrade(other, mark))),
          panel,
        ),
  ]);
}

/** Slips in dropping and rounding, for grades and component marks alike. */
function panelSlips(values: readonly number[], panel: PanelRule): Tried {
  if (values.length < 2) return [];
  const sorted = [...values].sort((a, b) => a - b);
  const all = { trimFrom: Infinity, drop: panel.drop };
  const cut = values.length >= panel.trimFrom ? sorted.slice(panel.drop, -panel.drop) : sorted;
  return [
    ['highest mark not dropped', panelMean(sorted.slice(panel.drop), all)],
    ['lowest mark not dropped', panelMean(sorted.slice(0, -panel.drop), all)],
    ['highest and lowest mark not dropped', panelMean(sorted, all)],
    ['two highest and two lowest marks dropped', sorted.length > 4 ? panelMean(sorted.slice(2, -2), all) : null],
    ['cut off instead of rounded', Math.trunc(cut.reduce((sum, value) => sum + value, 0) / cut.length)],
  ];
}

/** Slips of an element's score. */
export function scoreSlip(row: MeasuredElement): string | null {
  const { base, goe } = row;
  if (row.printed.score === null || base === null || goe === null) return null;
  return match(row.printed.score, [
    ['grade of execution not added', base],
    ['grade of execution with the wrong sign', base - goe],
    ...digitSlips(row.score),
  ]);
}

export function componentSlip(row: MeasuredComponent, panel: PanelRule): string | null {
  if (row.printed.score === null) return null;
  const marks = row.printed.marks.filter((mark) => mark !== null);
  return match(row.printed.score, [
    ...panelSlips(marks, panel),
    ['factor already applied', row.points],
    ...digitSlips(row.score),
  ]);
}

/** Slips of the technical score: one element left out or counted twice. */
export function tesSlip(
  published: Hundredths,
  expected: Hundredths,
  scores: readonly (Hundredths | null)[],
): string | null {
  const left = scores.findIndex((score) => score !== null && score !== 0 && expected - score === published);
  if (left >= 0) return `element ${left + 1} left out`;
  const twice = scores.findIndex((score) => score !== null && score !== 0 && expected + score === published);
  return twice >= 0 ? `element ${twice + 1} counted twice` : match(published, digitSlips(expected));
}

/** Slips of the component total: wrong factor, factor left out, rounded at the end. */
export function pcsSlip(
  published: Hundredths,
  expected: Hundredths,
  rows: readonly MeasuredComponent[],
  factors: readonly Hundredths[],
): string | null {
  const scores = rows.map((row) => row.score ?? 0);
  const total = scores.reduce((sum, score) => sum + score, 0);
  const product = rows.reduce((sum, row) => sum + (row.score ?? 0) * (row.factor ?? 0), 0);
  const factored = (factor: Hundredths): Hundredths =>
    scores.reduce((sum, score) => sum + (componentPoints(score, factor) ?? 0), 0);
  const left = rows.findIndex((row) => row.points !== null && expected - row.points === published);
  return match(published, [
    ['factor left out', total],
    ['sum rounded once instead of each component', roundedDivision(product, 100)],
    ...factors.map((factor) => [`wrong factor ${(factor / 100).toFixed(2)}`, factored(factor)] as const),
    [`component ${left + 1} left out`, left < 0 ? null : published],
    ...digitSlips(expected),
  ]);
}

/** Slips of the segment total. */
export function totalSlip(
  published: Hundredths,
  parts: {
    readonly tes: Hundredths;
    readonly pcs: Hundredths;
    readonly bonus: Hundredths;
    readonly deductions: Hundredths;
  },
): string | null {
  const { tes, pcs, bonus, deductions } = parts;
  const expected = tes + pcs + bonus + deductions;
  return match(published, [
    ['deductions not subtracted', deductions === 0 ? null : expected - deductions],
    ['deductions added', deductions === 0 ? null : expected - 2 * deductions],
    ['deductions subtracted twice', deductions === 0 ? null : expected + deductions],
    ['bonus not added', bonus === 0 ? null : expected - bonus],
    ['element score left out', expected - tes],
    ['component score left out', expected - pcs],
    ...agreeingDeductions(published, published - tes - pcs - bonus),
    ...digitSlips(expected),
  ]);
}

/** Deductions come in half points; nothing else can be told from the total. */
const HALF_POINT = 50;

const agreeingDeductions = (published: Hundredths, rest: Hundredths): Tried =>
  rest > 0 || rest % HALF_POINT !== 0 ? [] : [[`agrees with deductions of ${(rest / 100).toFixed(2)}`, published]];

/** Keying: the sign, two neighbouring digits exchanged, the decimal point moved. */
function digitSlips(expected: Hundredths | null): Tried {
  if (expected === null || expected === 0) return [];
  const digits = String(Math.abs(expected)).padStart(3, '0');
  const sign = Math.sign(expected);
  const exchanged = Array.from({ length: digits.length - 1 }, (_, i) =>
    Number(digits.slice(0, i) + digits.charAt(i + 1) + digits.charAt(i) + digits.slice(i + 2)),
  );
  return [
    ['wrong sign', -expected],
    ...exchanged.map((value) => ['two digits exchanged', sign * value] as const),
    ['decimal point moved', expected * 10],
    ['decimal point moved', expected % 10 === 0 ? expected / 10 : null],
  ];
}
