import type { ChosenRules } from '../../rulebook/index.ts';
import { toPoints } from '../form-fields.ts';
import type { Protocol } from '../protocol.ts';
import type { Finding } from './finding.ts';
import type { MeasuredComponent, MeasuredElement } from './measure.ts';
import type { Rows } from './panel-way.ts';
import { shownPoints } from './wrong-figure.ts';

/** What cannot be read or cannot be: codes, info columns, marks off the scale, rows that stand twice. */
export function unreadableFindings(protocol: Protocol, rows: Rows, rules: ChosenRules): readonly Finding[] {
  return [
    ...repeatedNumbers(protocol),
    ...repeatedComponents(protocol),
    ...rows.elements.flatMap((row, index) => elementTrouble(row, index, rules)),
    ...rows.components.flatMap((row, index) => componentTrouble(row, index, rules)),
  ];
}

function elementTrouble(row: MeasuredElement, index: number, rules: ChosenRules): readonly Finding[] {
  const { min, max } = rules.values.values.goe;
  return [
    ...calledTrouble(row, index),
    ...notListed(row, index, rules),
    ...row.impossible.map((judge): Finding => ({
      kind: 'rule',
      at: `elements[${index}].marks[${judge}]`,
      published: row.printed.marks[judge] ?? null,
      expected: null,
      message: `Element ${row.printed.no ?? index + 1}, ${row.printed.code}: the grade ${row.printed.marks[judge] ?? ''} (place ${judge + 1} of the panel) does not exist; this season's grades go from ${min} to ${max}. The grade of execution of this element stands unchecked.`,
    })),
  ];
}

function calledTrouble(row: MeasuredElement, index: number): readonly Finding[] {
  const { trouble } = row.called;
  if (trouble === null) return [];
  const at = `elements[${index}].${trouble.field}`;
  const published = row.printed[trouble.field];
  if ('problem' in trouble) {
    const { found, expected, advice } = trouble.problem;
    const message = `“${published}” cannot be read: found ${found}; expected ${expected}. ${advice}`;
    return [{ kind: 'unreadable', at, published, expected: null, message }];
  }
  const { alternatives } = trouble;
  const choices =
    alternatives.length === 0 ? 'it fits no jump of the element' : `it can mean ${alternatives.join(' or ')}`;
  const message = `The call “${published}” beside ${row.printed.code} cannot be placed: ${choices}. The element is read without the call in doubt.`;
  return [
    {
      kind: 'unreadable',
      at,
      published,
      expected: null,
      message,
      ...(alternatives.length > 0 ? { alternatives } : {}),
    },
  ];
}

/** A code that can be read but that this season's scale of values does not list. */
function notListed(row: MeasuredElement, index: number, rules: ChosenRules): readonly Finding[] {
  const missing = (row.value?.unknown ?? []).filter((code) => rules.values.row(code) === undefined);
  return missing.slice(0, 1).map((code) => ({
    kind: 'unreadable',
    at: `elements[${index}].code`,
    published: row.printed.code,
    expected: null,
    message: `The scale of values of ${rules.values.season} does not list ${code}; the printed figures of this element stand unchecked.`,
  }));
}

function componentTrouble(row: MeasuredComponent, index: number, rules: ChosenRules): readonly Finding[] {
  const { min, max, step } = rules.values.values.componentMarks;
  return row.impossible.map((judge): Finding => {
    const mark = row.printed.marks[judge] ?? 0;
    return {
      kind: 'rule',
      at: `components[${index}].marks[${judge}]`,
      published: toPoints(mark),
      expected: null,
      message: `${row.printed.name}: the mark ${shownPoints(mark)} (place ${judge + 1} of the panel) does not exist; marks go from ${shownPoints(min)} to ${shownPoints(max)} in steps of ${shownPoints(step)}. The score of this component stands unchecked.`,
    };
  });
}

function repeatedNumbers(protocol: Protocol): readonly Finding[] {
  const seen = new Set<number>();
  return protocol.elements.flatMap(({ no }, index): readonly Finding[] => {
    if (no === null || !seen.has(no)) {
      if (no !== null) seen.add(no);
      return [];
    }
    const message = `The element number ${no} stands twice on this sheet; perhaps two skaters are mixed.`;
    return [{ kind: 'unreadable', at: `elements[${index}].no`, published: no, expected: null, message }];
  });
}

function repeatedComponents(protocol: Protocol): readonly Finding[] {
  const names = protocol.components.map((component) => component.name.trim().toLowerCase());
  return protocol.components.flatMap((component, index): readonly Finding[] => {
    if (names.indexOf(names[index] ?? '') === index) return [];
    const message = `The component ${component.name} stands twice on this sheet; perhaps two skaters are mixed.`;
    return [
      { kind: 'unreadable', at: `components[${index}].name`, published: component.name, expected: null, message },
    ];
  });
}
