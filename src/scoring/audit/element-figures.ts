import { formatElement } from '../../notation/index.ts';
import type { ChosenRules, Rulebook } from '../../rulebook/index.ts';
import type { Finding } from './finding.ts';
import { followed, type WrongPart } from './follows.ts';
import { baseSlip, goeSlip, scoreSlip } from './known-slips.ts';
import type { MeasuredElement } from './measure.ts';
import { ownBase, ownGrade } from './own-values.ts';
import { isMethod, type Rows } from './panel-way.ts';
import { findingOf, partOf, type Figures, type Wrong } from './wrong-figure.ts';

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
    own: ownBase(row),
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
    own: ownGrade(row),
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
