/**
 * Prints protocols as text in many invented forms, so that reading them back can be held against the
 * protocol that was printed. None of the forms follows a sheet that exists.
 */

export interface PrintedElement {
  readonly no: number;
  readonly code: string;
  readonly info: string;
  readonly feedback?: string;
  readonly half: boolean;
  readonly base: number;
  readonly goe: number;
  readonly marks: readonly (number | null)[];
  readonly score: number;
}

export interface PrintedProtocol {
  readonly id: string;
  readonly season: string;
  readonly competition: string;
  readonly category: string;
  readonly segment: 'short' | 'free';
  readonly skater: string;
  readonly rank: number;
  readonly startNumber: number;
  readonly elements: readonly PrintedElement[];
  readonly components: readonly {
    readonly name: string;
    readonly factor: number;
    readonly marks: readonly (number | null)[];
    readonly score: number;
  }[];
  readonly deductions: number | readonly { readonly reason: string; readonly count: number; readonly points: number }[];
  readonly bonus?: number;
  readonly tes: number;
  readonly pcs: number;
  readonly total: number;
}

export type ColumnName = 'no' | 'code' | 'info' | 'base' | 'half' | 'goe' | 'marks' | 'referee' | 'score' | 'letters';
export type ComponentColumn = 'name' | 'factor' | 'marks' | 'score' | 'factored';

export interface SheetForm {
  readonly name: string;
  /** One space, a tab between cells, columns padded to a width, cells of a CSV row, cells of an HTML table. */
  readonly separator: 'space' | 'tab' | 'padded' | 'csv' | 'semicolon' | 'html';
  readonly decimal: '.' | ',';
  readonly minus: string;
  readonly missing: '-' | '' | '.';
  readonly columns: readonly ColumnName[];
  readonly componentColumns: readonly ComponentColumn[];
  /** Judges' columns on the sheet; 0: as many as the panel. */
  readonly judgeColumns: number;
  readonly words: Words;
  /** Totals in a row beside the name, in lines at the foot, or both. */
  readonly totals: 'row' | 'foot' | 'both' | 'lines-above';
  readonly half: 'column' | 'code' | 'base';
  readonly letters: 'suffix' | 'info' | 'line' | 'column' | 'kp';
  readonly componentsFirst?: boolean;
  readonly twoLines?: boolean;
  /** Element rows longer than this many characters go on in the next line. */
  readonly wrap?: number;
  readonly sumLine?: boolean;
  readonly columnHeads?: boolean;
  readonly pageLines?: boolean;
  readonly legend?: boolean;
  readonly itemised: boolean;
}

export interface Words {
  readonly women: string;
  readonly men: string;
  readonly short: string;
  readonly free: string;
  readonly ages: Readonly<Record<string, string>>;
  readonly rank: string;
  readonly name: string;
  readonly start: string;
  readonly tes: string;
  readonly pcs: string;
  readonly total: string;
  readonly deductions: string;
  readonly bonus: string;
  readonly fall: string;
  readonly heads: Readonly<Record<ColumnName, string>>;
}

const AGES = {
  senior: 'Senior',
  junior: 'Junior',
  'advanced novice': 'Advanced Novice',
  novice: 'Novice',
  intermediate: 'Intermediate',
};
const HEADS = {
  no: '#',
  code: 'Executed',
  info: 'Info',
  base: 'Base',
  half: 'x',
  goe: 'GOE',
  marks: 'J',
  referee: 'Ref',
  score: 'Score',
  letters: 'Fb',
};
export const ENGLISH: Words = {
  women: 'Women',
  men: 'Men',
  short: 'Short Program',
  free: 'Free Skating',
  ages: AGES,
  rank: 'Rank',
  name: 'Name',
  start: 'Start',
  tes: 'Element Score',
  pcs: 'Component Score',
  total: 'Segment Score',
  deductions: 'Deductions',
  bonus: 'Bonus',
  fall: 'Falls',
  heads: HEADS,
};
export const GERMAN: Words = {
  women: 'Damen',
  men: 'Herren',
  short: 'Kurzprogramm',
  free: 'Kür',
  ages: { ...AGES, senior: 'Senioren', junior: 'Junioren' },
  rank: 'Platz',
  name: 'Läufer',
  start: 'Startnummer',
  tes: 'Elemente',
  pcs: 'Komponenten',
  total: 'Gesamtpunkte',
  deductions: 'Abzüge',
  bonus: 'Bonus',
  fall: 'Stürze',
  heads: {
    ...HEADS,
    no: 'Nr',
    code: 'Element',
    info: 'Hinweis',
    base: 'Basiswert',
    marks: 'P',
    referee: 'SR',
    score: 'Ergebnis',
  },
};
export const FRENCH: Words = {
  women: 'Dames',
  men: 'Messieurs',
  short: 'Programme court',
  free: 'Libre',
  ages: AGES,
  rank: 'Rang',
  name: 'Nom',
  start: 'Ordre',
  tes: 'Total éléments',
  pcs: 'Total composantes',
  total: 'Total segment',
  deductions: 'Déductions',
  bonus: 'Bonus',
  fall: 'Chutes',
  heads: { ...HEADS, code: 'Éléments', base: 'Valeur', marks: 'J', score: 'Note' },
};

const BASIC: SheetForm = {
  name: 'plain',
  separator: 'space',
  decimal: '.',
  minus: '-',
  missing: '-',
  columns: ['no', 'code', 'info', 'base', 'half', 'goe', 'marks', 'score'],
  componentColumns: ['name', 'factor', 'marks', 'score'],
  judgeColumns: 0,
  words: ENGLISH,
  totals: 'row',
  half: 'column',
  letters: 'suffix',
  sumLine: true,
  columnHeads: true,
  itemised: true,
};

export const SHEET_FORMS: readonly SheetForm[] = [
  BASIC,
  {
    ...BASIC,
    name: 'tabs and commas',
    separator: 'tab',
    decimal: ',',
    minus: '\u2212',
    missing: '',
    words: GERMAN,
    totals: 'foot',
    letters: 'column',
    columns: ['code', 'no', 'base', 'half', 'score', 'goe', 'marks', 'letters'],
    componentColumns: ['name', 'score', 'factor', 'marks'],
  },
  {
    ...BASIC,
    name: 'padded with referee',
    separator: 'padded',
    missing: '',
    judgeColumns: 9,
    totals: 'both',
    pageLines: true,
    legend: true,
    columns: ['no', 'code', 'info', 'base', 'half', 'goe', 'marks', 'referee', 'score'],
  },
  {
    ...BASIC,
    name: 'marks first',
    separator: 'padded',
    words: FRENCH,
    totals: 'foot',
    letters: 'line',
    componentsFirst: true,
    half: 'base',
    columns: ['marks', 'score', 'goe', 'base', 'code', 'no'],
    componentColumns: ['marks', 'score', 'factor', 'name'],
    sumLine: false,
  },
  {
    ...BASIC,
    name: 'two lines',
    twoLines: true,
    half: 'code',
    letters: 'kp',
    totals: 'lines-above',
    sumLine: false,
    columnHeads: false,
  },
  { ...BASIC, name: 'wrapped', wrap: 34, totals: 'both', letters: 'suffix' },
  {
    ...BASIC,
    name: 'no heads',
    columnHeads: false,
    totals: 'foot',
    letters: 'info',
    judgeColumns: 9,
    columns: ['no', 'score', 'base', 'goe', 'code', 'info', 'marks'],
    half: 'base',
    itemised: false,
  },
  { ...BASIC, name: 'csv sheet', separator: 'csv', missing: '', half: 'column', totals: 'both' },
  {
    ...BASIC,
    name: 'semicolons',
    separator: 'semicolon',
    decimal: ',',
    words: GERMAN,
    totals: 'foot',
    letters: 'column',
    columns: ['no', 'code', 'letters', 'base', 'half', 'goe', 'score', 'marks'],
    componentColumns: ['name', 'factor', 'marks', 'score', 'factored'],
  },
  { ...BASIC, name: 'html table', separator: 'html', missing: '', words: GERMAN, judgeColumns: 9, totals: 'both' },
];

type Cells = readonly string[];

/** A file of several skaters in one form. */
export function printSheets(protocols: readonly PrintedProtocol[], form: SheetForm): string {
  const rows = protocols.flatMap((protocol, i) => [
    ...(form.pageLines === true && i > 0 ? pageBreak(i) : []),
    ...sheetRows(protocol, form, i === 0),
  ]);
  if (form.separator === 'html') return htmlOf(rows);
  return `${rows
    .map((row) => lineOf(row, form))
    .flatMap((line) => wrapped(line, form))
    .join('\n')}\n`;
}

const pageBreak = (i: number): Cells[] => [[`printed 14.10.2023 15:2${i % 10}`], [`Page ${i} / 99`], ['']];

function lineOf(row: Cells, form: SheetForm): string {
  switch (form.separator) {
    case 'space':
      return row.filter((cell) => cell !== '').join(' ');
    case 'tab':
      return row.join('\t');
    case 'padded':
      return row.length < 5
        ? row.join('   ')
        : row
            .map((cell, i) =>
              i === 0 ? cell.padStart(3) : cell.padStart(Math.max(cell.length + 1, row.length > 12 ? 9 : 12)),
            )
            .join('');
    case 'csv':
      return row.map((cell) => (/[",]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(',');
    case 'semicolon':
      return row.join(';');
    case 'html':
      return row.join(' ');
  }
}

function wrapped(line: string, form: SheetForm): string[] {
  if (
    form.wrap === undefined ||
    line.length <= form.wrap ||
    !/^\d+ \S*[A-Z]/.test(line) ||
    !/\d\.\d\d.*\d\.\d\d/.test(line)
  )
    return [line];
  const cut = line.lastIndexOf(' ', form.wrap);
  return [line.slice(0, cut), line.slice(cut + 1)];
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

function htmlOf(rows: readonly Cells[]): string {
  const body = rows.map((row) =>
    row.length === 1
      ? `</table><p>${escaped(row[0] ?? '')}</p><table>`
      : `<tr>${row.map((cell) => `<td>${escaped(cell)}</td>`).join('')}</tr>`,
  );
  return `<!doctype html><html><head><title>t</title><style>td{color:red}</style></head><body><table>${body.join('\n')}</table></body></html>`;
}

function sheetRows(protocol: PrintedProtocol, form: SheetForm, first: boolean): Cells[] {
  const { words } = form;
  const age =
    Object.keys(words.ages).find(
      (name) => protocol.category === `${name} women` || protocol.category === `${name} men`,
    ) ?? '';
  const sex = protocol.category.endsWith(' women') ? words.women : words.men;
  const elements = elementRows(protocol, form);
  const components = componentRows(protocol, form);
  return [
    ...(first ? [['Harbour Lights Trophy']] : []),
    [`${words.ages[age] ?? age} ${sex} ${words[protocol.segment]} ${protocol.season}`],
    ...personRows(protocol, form),
    ...(form.componentsFirst === true ? [...components, ...elements] : [...elements, ...components]),
    ...footRows(protocol, form),
    ...(form.legend === true ? [['< under-rotated << downgraded e wrong edge x second half * no value']] : []),
    [''],
  ];
}

const points = (value: number, form: SheetForm): string => signed(value.toFixed(2), form).replace('.', form.decimal);
const signed = (text: string, form: SheetForm): string => (text.startsWith('-') ? form.minus + text.slice(1) : text);

const deductionSum = ({ deductions }: PrintedProtocol): number =>
  typeof deductions === 'number' ? deductions : deductions.reduce((sum, item) => sum + item.points, 0);

function personRows(protocol: PrintedProtocol, form: SheetForm): Cells[] {
  const { words } = form;
  const { rank, skater, startNumber, tes, pcs, total } = protocol;
  if (form.totals === 'row' || form.totals === 'both') {
    const head = [words.rank, words.name, words.start, words.total, words.tes, words.pcs, words.deductions];
    const row = [
      String(rank),
      skater,
      String(startNumber),
      points(total, form),
      points(tes, form),
      points(pcs, form),
      points(deductionSum(protocol), form),
    ];
    return [...(form.columnHeads === true ? [head] : []), row];
  }
  const person =
    form.separator === 'tab' || form.separator === 'semicolon'
      ? [words.rank, String(rank), `${words.name}:`, skater, words.start, String(startNumber)]
      : [`${words.rank} ${rank}   ${words.name}: ${skater}   ${words.start} ${startNumber}`];
  return [person, ...(form.totals === 'lines-above' ? totalRows(protocol, form) : [])];
}

function totalRows(protocol: PrintedProtocol, form: SheetForm): Cells[] {
  const { words } = form;
  return [
    [words.tes, points(protocol.tes, form)],
    [words.pcs, points(protocol.pcs, form)],
    ...(protocol.bonus === undefined ? [] : [[words.bonus, points(protocol.bonus, form)]]),
    [words.deductions, points(deductionSum(protocol), form)],
    [words.total, points(protocol.total, form)],
  ];
}

function footRows(protocol: PrintedProtocol, form: SheetForm): Cells[] {
  const { deductions } = protocol;
  const items =
    form.itemised && typeof deductions !== 'number'
      ? deductions.map((item) => [
          `${item.reason === 'fall' ? form.words.fall : 'Time'} (${item.count})`,
          points(item.points, form),
        ])
      : [];
  const bonus =
    protocol.bonus !== undefined && form.totals === 'row' ? [[form.words.bonus, points(protocol.bonus, form)]] : [];
  return [...items, ...bonus, ...(form.totals === 'foot' || form.totals === 'both' ? totalRows(protocol, form) : [])];
}

const padded = <T>(marks: readonly (T | null)[], size: number): (T | null)[] =>
  Array.from({ length: Math.max(size, marks.length) }, (_, i) => marks[i] ?? null);

function panelSize(protocol: PrintedProtocol, form: SheetForm): number {
  return Math.max(
    form.judgeColumns,
    ...protocol.elements.map((one) => one.marks.length),
    ...protocol.components.map((one) => one.marks.length),
  );
}

function elementRows(protocol: PrintedProtocol, form: SheetForm): Cells[] {
  const size = panelSize(protocol, form);
  const upper = form.twoLines === true ? form.columns.filter((name) => name !== 'marks') : form.columns;
  const names = upper.flatMap((name): { name: ColumnName; judge: number }[] =>
    name === 'marks' ? Array.from({ length: size }, (_, judge) => ({ name, judge })) : [{ name, judge: 0 }],
  );
  const rows = protocol.elements.flatMap((element): Cells[] => {
    const marks = padded(element.marks, size).map((mark) =>
      mark === null ? form.missing : signed(String(mark), form),
    );
    const row = names.map(({ name, judge }) =>
      name === 'marks' ? (marks[judge] ?? '') : elementCell(name, element, form),
    );
    return form.twoLines === true ? [row, marks] : [row];
  });
  const base = protocol.elements.reduce((sum, one) => sum + Math.round(one.base * 100), 0) / 100;
  const sum = names.map(({ name }) =>
    name === 'base' ? points(base, form) : name === 'score' ? points(protocol.tes, form) : '',
  );
  const letters =
    form.letters === 'line'
      ? protocol.elements
          .filter((one) => one.feedback !== undefined)
          .map((one) => [`${one.no} ${one.code}: ${one.feedback ?? ''}`])
      : [];
  return [
    ...(form.columnHeads === true
      ? [
          names.map(({ name, judge }) =>
            name === 'marks' ? `${form.words.heads.marks}${judge + 1}` : form.words.heads[name],
          ),
        ]
      : []),
    ...rows,
    ...(form.sumLine === true ? [sum] : []),
    ...letters,
  ];
}

function elementCell(name: Exclude<ColumnName, 'marks'>, element: PrintedElement, form: SheetForm): string {
  switch (name) {
    case 'no':
      return String(element.no);
    case 'code': {
      const letters =
        element.feedback === undefined
          ? ''
          : form.letters === 'suffix'
            ? ` ${element.feedback}`
            : form.letters === 'kp'
              ? `+kp${element.feedback}`
              : '';
      return element.code + (form.half === 'code' && element.half ? 'x' : '') + letters;
    }
    case 'info':
      return form.letters === 'info' && element.feedback !== undefined ? element.feedback : element.info;
    case 'base':
      return points(element.base, form) + (form.half === 'base' && element.half ? ' x' : '');
    case 'half':
      return form.half === 'column' && element.half ? 'x' : '';
    case 'goe':
      return points(element.goe, form);
    case 'referee':
      return '';
    case 'score':
      return points(element.score, form);
    case 'letters':
      return element.feedback ?? '';
  }
}

function componentRows(protocol: PrintedProtocol, form: SheetForm): Cells[] {
  const size = panelSize(protocol, form);
  return protocol.components.map((component) =>
    form.componentColumns.flatMap((name) => {
      if (name === 'marks')
        return padded(component.marks, size).map((mark) => (mark === null ? form.missing : points(mark, form)));
      if (name === 'name') return [component.name];
      if (name === 'factored')
        return [
          points(
            Math.round((Math.round(component.factor * 100) * Math.round(component.score * 100)) / 100) / 100,
            form,
          ),
        ];
      return [points(component[name], form)];
    }),
  );
}
