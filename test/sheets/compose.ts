import type { Block, Cell, Column, Row } from './document.ts';
import { componentMark, grade, points } from './figures.ts';
import type { ColumnName, Form } from './forms.ts';
import { type Labels, LABELS } from './labels.ts';
import { callsOf, printedProtocol } from './printed.ts';
import type { SheetComponent, SheetElement, SheetProtocol } from './protocols.ts';

/** An event book (or a single sheet) of this form, skater after skater. */
export function composeBook(protocols: readonly SheetProtocol[], form: Form): Block[] {
  const blocks: Block[] = [];
  protocols.forEach((protocol, i) => {
    if (i > 0 && form.perPage > 0 && i % form.perPage === 0) blocks.push({ kind: 'break' });
    blocks.push(...composeSheet(protocol, form));
  });
  return blocks;
}

/** One skater's sheet. */
export function composeSheet(source: SheetProtocol, form: Form): Block[] {
  const protocol = printedProtocol(source, form);
  const labels: Labels = LABELS[form.language];
  const elements = [elementTable(protocol, form, labels), ...letterLines(protocol, form)];
  const components = [heading(labels.components), componentTable(protocol, form, labels)];
  return [
    title(`Fjordpokal ${protocol.season.slice(0, 4)}`),
    heading(eventName(protocol, labels)),
    line(personLine(protocol, labels)),
    ...(form.totals === 'foot' ? [] : [totalsTable(protocol, form, labels)]),
    ...(form.componentsFirst ? [...components, ...elements] : [...elements, ...components]),
    ...deductionLines(protocol, form, labels),
    ...(form.totals === 'head' ? [] : [totalsTable(protocol, form, labels)]),
    ...(form.legend ? labels.legend.map(small) : []),
  ];
}

const title = (text: string): Block => ({ kind: 'line', text, role: 'title' });
const heading = (text: string): Block => ({ kind: 'line', text, role: 'heading' });
const line = (text: string): Block => ({ kind: 'line', text, role: 'plain' });
const small = (text: string): Block => ({ kind: 'line', text, role: 'small' });

function eventName(protocol: SheetProtocol, labels: Labels): string {
  const age = (['advanced novice', 'senior', 'junior'] as const).find((name) => protocol.category.startsWith(name));
  const sex = protocol.category.endsWith('women') && !protocol.category.endsWith(' men') ? labels.women : labels.men;
  return `${age === undefined ? protocol.category : labels[age]} ${sex} \u2013 ${labels[protocol.segment]} ${protocol.season}`;
}

const personLine = (protocol: SheetProtocol, labels: Labels): string =>
  `${labels.rank} ${protocol.rank}   ${labels.name}: ${protocol.skater}   ${labels.start} ${protocol.startNumber}`;

const ALIGN: Readonly<Record<ColumnName, Column>> = {
  no: { align: 'right', weight: 3 },
  code: { align: 'left', weight: 15 },
  info: { align: 'center', weight: 4 },
  letters: { align: 'left', weight: 5 },
  half: { align: 'center', weight: 3 },
  base: { align: 'right', weight: 7 },
  goe: { align: 'right', weight: 7 },
  marks: { align: 'center', weight: 4 },
  referee: { align: 'center', weight: 4 },
  score: { align: 'right', weight: 8 },
};

const judges = (marks: readonly unknown[], form: Form): number => Math.max(marks.length, form.judgeColumns);
const panelSize = (protocol: SheetProtocol): number =>
  protocol.components[0]?.marks.length ?? protocol.elements[0]?.marks.length ?? 0;

function elementTable(protocol: SheetProtocol, form: Form, labels: Labels): Block {
  const size = Math.max(panelSize(protocol), form.judgeColumns);
  const upper = form.rows === 'two' ? form.columns.filter((name) => name !== 'marks') : form.columns;
  const spread = (names: readonly ColumnName[]): ColumnName[] =>
    names.flatMap((name) => (name === 'marks' ? Array<ColumnName>(size).fill('marks') : [name]));
  const names = spread(upper);
  const rows = protocol.elements.flatMap((element) => elementRows(element, form, names, size));
  if (form.sumRow) rows.push(sumRow(protocol, form, names));
  return {
    kind: 'table',
    columns: names.map((name) => wide(name, form)),
    head: form.head ? headOf(names, labels) : null,
    rows,
  };
}

const wide = (name: ColumnName, form: Form): Column =>
  name === 'base' && form.half === 'base' ? { ...ALIGN.base, weight: 9 } : ALIGN[name];

function headOf(names: readonly ColumnName[], labels: Labels): string[] {
  let judge = 0;
  return names.map((name) => {
    if (name !== 'marks') return labels[name];
    judge += 1;
    return `${labels.judge}${judge}`;
  });
}

function elementRows(element: SheetElement, form: Form, names: readonly ColumnName[], size: number): Row[] {
  const marks = padded(element.marks, size).map((mark) => grade(mark, form));
  let next = 0;
  const row = names.map((name) => (name === 'marks' ? (marks[next++] ?? '') : elementCell(name, element, form)));
  if (form.rows === 'one') return [row];
  const start = names.length >= size + 1 ? 1 : 0;
  return [
    row,
    names.length >= size
      ? names.map((_, i) => marks[i - start] ?? '')
      : [{ parts: [{ text: marks.join('   '), raised: false }] }],
  ];
}

const padded = <T>(marks: readonly (T | null)[], size: number): (T | null)[] =>
  Array.from({ length: size }, (_, i) => marks[i] ?? null);

function elementCell(name: Exclude<ColumnName, 'marks'>, element: SheetElement, form: Form): Cell {
  switch (name) {
    case 'no':
      return String(element.no);
    case 'code':
      return codeCell(element, form);
    case 'info':
      return form.letters === 'info' && element.feedback !== undefined ? element.feedback : element.info;
    case 'letters':
      return element.feedback ?? '';
    case 'half':
      return element.half ? 'x' : '';
    case 'base':
      return points(element.base, form) + (form.half === 'base' && element.half ? ' x' : '');
    case 'goe':
      return points(element.goe, form);
    case 'referee':
      return '';
    case 'score':
      return points(element.score, form);
  }
}

function codeCell(element: SheetElement, form: Form): Cell {
  const suffix = form.letters === 'suffix' && element.feedback !== undefined ? ` ${element.feedback}` : '';
  const half = form.half === 'code' && element.half ? ' x' : '';
  if (form.calls !== 'raised' || callsOf(element.code).length === 0) return element.code + suffix + half;
  const parts = element.code.split(/(<<|<|!|q)/).filter((part) => part !== '');
  return {
    parts: [
      ...parts.map((text) => ({ text, raised: /^(<<|<|!|q)$/.test(text) })),
      { text: suffix + half, raised: false },
    ],
  };
}

function sumRow(protocol: SheetProtocol, form: Form, names: readonly ColumnName[]): Row {
  const base = protocol.elements.reduce((sum, element) => sum + Math.round(element.base * 100), 0) / 100;
  return names.map((name) =>
    name === 'base' ? points(base, form) : name === 'score' ? points(protocol.tes, form) : '',
  );
}

/** Letters on a line of their own, each with the number of its element. */
function letterLines(protocol: SheetProtocol, form: Form): Block[] {
  if (form.letters !== 'line') return [];
  const lettered = protocol.elements.filter((element) => element.feedback !== undefined);
  return lettered.map((element) => small(`${element.no} ${element.code}: ${element.feedback ?? ''}`));
}

function componentTable(protocol: SheetProtocol, form: Form, labels: Labels): Block {
  const size = judges(protocol.components[0]?.marks ?? [], form);
  const names = form.componentColumns.flatMap((name) =>
    name === 'marks' ? Array<'marks'>(size).fill('marks') : [name],
  );
  const widths = {
    name: { align: 'left', weight: 18 },
    factor: { align: 'right', weight: 6 },
    marks: { align: 'center', weight: 6 },
    score: { align: 'right', weight: 8 },
  } as const;
  return {
    kind: 'table',
    columns: names.map((name) => widths[name]),
    head: null,
    rows: protocol.components.map((component) => componentRow(component, form, labels, names, size)),
  };
}

function componentRow(
  component: SheetComponent,
  form: Form,
  labels: Labels,
  names: readonly ('name' | 'factor' | 'marks' | 'score')[],
  size: number,
): Row {
  const marks = padded(component.marks, size).map((mark) => componentMark(mark, form));
  let next = 0;
  return names.map((name) => {
    if (name === 'marks') return marks[next++] ?? '';
    if (name === 'name') return labels.componentNames[component.name] ?? component.name;
    return points(component[name], form);
  });
}

function deductionLines(protocol: SheetProtocol, form: Form, labels: Labels): Block[] {
  if (!form.deductionItems || typeof protocol.deductions === 'number') return [];
  const reason = (name: string): string => (name === 'fall' ? labels.fall : name === 'time' ? labels.time : name);
  return protocol.deductions.map((item) =>
    line(`${reason(item.reason)} (${item.count})   ${points(item.points, form)}`),
  );
}

function totalsTable(protocol: SheetProtocol, form: Form, labels: Labels): Block {
  const deductions =
    typeof protocol.deductions === 'number'
      ? protocol.deductions
      : protocol.deductions.reduce((sum, item) => sum + item.points, 0);
  const rows: [string, number][] = [
    [labels.tes, protocol.tes],
    [labels.pcs, protocol.pcs],
  ];
  if (protocol.bonus !== undefined) rows.push([labels.bonus, protocol.bonus]);
  rows.push([labels.deductions, deductions], [labels.total, protocol.total]);
  return {
    kind: 'table',
    columns: [
      { align: 'left', weight: 30 },
      { align: 'right', weight: 12 },
      { align: 'left', weight: 40 },
    ],
    head: null,
    rows: rows.map(([label, value]) => [label, points(value, form), '']),
  };
}
