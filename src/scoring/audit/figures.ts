import { formatElement } from '../../notation/index.ts';
import type { ChosenRules, Hundredths, Rulebook } from '../../rulebook/index.ts';
import { toPoints } from '../form-fields.ts';
import type { Protocol } from '../protocol.ts';
import { componentPoints } from '../segment.ts';
import type { Finding, FindingKind } from './finding.ts';
import { followed, type WrongPart } from './follows.ts';
import { baseSlip, componentSlip, goeSlip, pcsSlip, scoreSlip, tesSlip, totalSlip } from './known-slips.ts';
import type { MeasuredComponent, MeasuredElement } from './measure.ts';
import { isMethod, type Rows } from './panel-way.ts';

export interface Sums {
  readonly tes: Hundredths | null;
  readonly pcs: Hundredths | null;
  readonly deductions: Hundredths | null;
  readonly total: Hundredths | null;
}

/** Findings about figures, and what they hand on to the sums above them. */
export interface Figures {
  readonly findings: readonly Finding[];
  readonly parts: readonly WrongPart[];
}

interface Wrong {
  readonly at: string;
  readonly published: Hundredths;
  readonly expected: Hundredths;
  /** `grade of execution of element 3, 3Lz+3T` */
  readonly what: string;
  /** What gives the expected figure. */
  readonly from: string;
  readonly kind?: FindingKind;
  readonly slip?: string | null;
  readonly follows?: WrongPart | null;
}

export const shownPoints = (value: Hundredths): string => (value / 100).toFixed(2);

function findingOf(wrong: Wrong): Finding {
  const { at, published, expected, follows, slip } = wrong;
  const disagree = `The printed ${wrong.what} is ${shownPoints(published)}; ${wrong.from} ${shownPoints(expected)}.`;
  return {
    kind: follows?.kind ?? wrong.kind ?? 'calculation',
    at,
    published: toPoints(published),
    expected: toPoints(expected),
    message: follows ? `${disagree} It adds the figure at ${follows.root}.` : disagree,
    ...(follows ? { follows: follows.root } : {}),
    ...(slip && !follows ? { slip } : {}),
  };
}

/** What a wrong figure hands on: the place where the fault began, and by how much it is off. */
const partOf = (wrong: Wrong): WrongPart => ({
  root: wrong.follows?.root ?? wrong.at,
  kind: wrong.follows?.kind ?? wrong.kind ?? 'calculation',
  delta: wrong.published - wrong.expected,
});

const figuresOf = (wrongs: readonly Wrong[]): Figures => ({
  findings: wrongs.map(findingOf),
  parts: wrongs.map(partOf),
});

/** Base value, grade of execution and score of every element; the parts are those of the scores. */
export function elementFigures(rows: Rows, rules: ChosenRules, others: () => readonly Rulebook[]): Figures {
  const findings: Finding[] = [];
  const parts: WrongPart[] = [];
  for (const [index, row] of rows.elements.entries()) {
    const own = [baseFigure(row, index, rules, others), goeFigure(row, index, rows, rules)].filter(
      (one) => one !== null,
    );
    const score = scoreFigure(row, index, own.map(partOf));
    findings.push(...own.map(findingOf), ...(score === null ? [] : [findingOf(score)]));
    if (score !== null) parts.push(partOf(score));
  }
  return { findings, parts };
}

const nameOf = (row: MeasuredElement, index: number): string =>
  `element ${row.printed.no ?? index + 1}, ${row.called.element === null ? row.printed.code : formatElement(row.called.element)}`;

function baseFigure(
  row: MeasuredElement,
  index: number,
  rules: ChosenRules,
  others: () => readonly Rulebook[],
): Wrong | null {
  const published = row.printed.base;
  const expected = row.base;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: `elements[${index}].base`,
    published,
    expected,
    what: `base value of ${nameOf(row, index)},`,
    from: 'the code as called makes',
    slip: baseSlip(row, rules, others()),
  };
}

function goeFigure(row: MeasuredElement, index: number, rows: Rows, rules: ChosenRules): Wrong | null {
  const published = row.printed.goe;
  const expected = row.goe;
  if (published === null || expected === null || published === expected) return null;
  const method = isMethod(row, rows.panel, rules);
  return {
    at: `elements[${index}].goe`,
    published,
    expected,
    what: `grade of execution of ${nameOf(row, index)},`,
    from: method ? 'the marks averaged in the order used here make' : 'the printed marks make',
    kind: method ? 'method' : 'calculation',
    slip: method ? null : goeSlip(row, rules, rows.panel),
  };
}

function scoreFigure(row: MeasuredElement, index: number, parts: readonly WrongPart[]): Wrong | null {
  const published = row.printed.score;
  const expected = row.score;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: `elements[${index}].score`,
    published,
    expected,
    what: `score of ${nameOf(row, index)},`,
    from: 'base value and grade of execution make',
    follows: followed(published - expected, parts),
    slip: scoreSlip(row),
  };
}

/** Panel means and factors of the components; the parts are in factored points. */
export function componentFigures(rows: Rows, rules: ChosenRules, protocol: Protocol): Figures {
  const scores = rows.components.map((row, index) => meanFigure(row, index, rows));
  const wrong = scores.filter((one) => one !== null);
  const factors = factorFigures(rows, rules, protocol);
  const parts = scores.flatMap((one, index) => factoredPart(one, rows.components[index]) ?? []);
  return { findings: [...figuresOf(wrong).findings, ...factors.findings], parts: [...parts, ...factors.parts] };
}

function meanFigure(row: MeasuredComponent, index: number, rows: Rows): Wrong | null {
  const published = row.printed.score;
  const expected = row.score;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: `components[${index}].score`,
    published,
    expected,
    what: `score of the component ${row.printed.name}`,
    from: 'its printed marks make',
    slip: componentSlip(row, rows.panel),
  };
}

/** What a wrong panel mean adds to the component total. */
function factoredPart(wrong: Wrong | null, row: MeasuredComponent | undefined): WrongPart | null {
  const published = componentPoints(wrong?.published ?? null, row?.factor ?? null);
  if (wrong === null || published === null || row?.points == null || published === row.points) return null;
  return { ...partOf(wrong), delta: published - row.points };
}

/**
 * Printed factors against the rulebook's. A sheet that closes with its own factors keeps them (the
 * category may be another one than the rulebook thinks); one that closes only with the rulebook's, or
 * whose factors differ among themselves, has a wrong figure.
 */
function factorFigures(rows: Rows, rules: ChosenRules, protocol: Protocol): Figures {
  const known = rules.values.components(rules.category, rules.segment).factor;
  if (known === null || protocol.category === null || protocol.segment === null) return figuresOf([]);
  const factors = new Set(rows.components.map((row) => row.factor));
  const sum = rows.components.reduce((total, row) => total + (row.points ?? 0), 0);
  if (factors.size === 1 && (protocol.pcs === null || protocol.pcs === sum)) return figuresOf([]);
  const wrongs = rows.components.flatMap((row, index) => factorFigure(row, index, known) ?? []);
  return {
    findings: wrongs.map(findingOf),
    parts: wrongs.flatMap((wrong) => {
      const row = rows.components.find((_, index) => wrong.at === `components[${index}].factor`);
      const delta = (componentPoints(row?.score ?? null, known) ?? 0) - (row?.points ?? 0);
      return delta === 0 ? [] : [{ root: wrong.at, kind: 'calculation' as const, delta }];
    }),
  };
}

function factorFigure(row: MeasuredComponent, index: number, known: Hundredths): Wrong | null {
  const published = row.printed.factor;
  if (published === null || published === known) return null;
  return {
    at: `components[${index}].factor`,
    published,
    expected: known,
    what: `factor of the component ${row.printed.name}`,
    from: 'for this category and segment the rulebook has',
    slip: 'wrong factor',
  };
}

interface Parts {
  readonly elements: readonly WrongPart[];
  readonly components: readonly WrongPart[];
}

/** Element score, component total and segment total. */
export function sumFigures(
  protocol: Protocol,
  rows: Rows,
  sums: Sums,
  rules: ChosenRules,
  parts: Parts,
): readonly Finding[] {
  const tes = tesFigure(protocol, rows, sums, parts.elements);
  const pcs = pcsFigure(protocol, rows, sums, rules, parts.components);
  const own = [tes, pcs].filter((one) => one !== null);
  const total = totalFigure(protocol, sums, rules, own.map(partOf));
  return [...own, ...(total === null ? [] : [total])].map(findingOf);
}

function tesFigure(protocol: Protocol, rows: Rows, sums: Sums, parts: readonly WrongPart[]): Wrong | null {
  const { tes: published } = protocol;
  const { tes: expected } = sums;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: 'tes',
    published,
    expected,
    what: 'total element score',
    from: 'the elements add up to',
    follows: followed(published - expected, parts),
    slip: tesSlip(
      published,
      expected,
      rows.elements.map((row) => row.score),
    ),
  };
}

function pcsFigure(
  protocol: Protocol,
  rows: Rows,
  sums: Sums,
  rules: ChosenRules,
  parts: readonly WrongPart[],
): Wrong | null {
  const { pcs: published } = protocol;
  const { pcs: expected } = sums;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: 'pcs',
    published,
    expected,
    what: 'total component score',
    from: 'the factored components add up to',
    follows: followed(published - expected, parts),
    slip: pcsSlip(published, expected, rows.components, otherFactors(rules)),
  };
}

/** Factors of the other segment and the other sex, which a wrong setting would apply. */
function otherFactors(rules: ChosenRules): readonly Hundredths[] {
  const factors = (['women', 'men'] as const).flatMap((sex) =>
    (['short', 'free'] as const).map((segment) => rules.values.components(`${rules.ageGroup} ${sex}`, segment).factor),
  );
  return [...new Set(factors.filter((factor) => factor !== null))];
}

function totalFigure(protocol: Protocol, sums: Sums, rules: ChosenRules, parts: readonly WrongPart[]): Wrong | null {
  const { total: published } = protocol;
  const { total: expected, tes, pcs } = sums;
  if (published === null || expected === null || published === expected) return null;
  const follows = followed(published - expected, parts);
  const bonus = follows === null && isPossibleBonus(protocol, published - expected, rules);
  return {
    at: 'total',
    published,
    expected,
    what: 'total segment score',
    from: 'element score, component score and deductions make',
    follows,
    kind: bonus ? 'slip' : 'calculation',
    slip: bonus
      ? 'possible bonus'
      : totalSlip(published, {
          tes: tes ?? 0,
          pcs: pcs ?? 0,
          bonus: protocol.bonus ?? 0,
          deductions: sums.deductions ?? 0,
        }),
  };
}

/** Bonus points come in whole or half points. */
const HALF_POINT = 50;

/** Points too many, whole or half, where the rulebook knows of bonus points or does not know. */
function isPossibleBonus(protocol: Protocol, surplus: Hundredths, rules: ChosenRules): boolean {
  const known = rules.content.content(rules.category, rules.segment)?.bonusPoints ?? null;
  return protocol.bonus === null && known !== false && surplus > 0 && surplus % HALF_POINT === 0;
}
