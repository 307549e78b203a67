import type { Style } from './document.ts';
import type { Language } from './labels.ts';

export type ColumnName = 'no' | 'code' | 'info' | 'letters' | 'half' | 'base' | 'goe' | 'marks' | 'referee' | 'score';
export type Producer = 'pdfmake' | 'chromium' | 'ghostscript';

/**
 * One invented sheet form. None follows a sheet that exists: they are as different from each other as
 * the arithmetic allows, so that reading cannot lean on any one look.
 */
export interface Form {
  readonly name: string;
  readonly language: Language;
  readonly producer: Producer;
  readonly style: Style;
  readonly decimal: '.' | ',';
  readonly minus: '-' | '\u2212' | '\u2013';
  readonly columns: readonly ColumnName[];
  readonly componentColumns: readonly ('name' | 'factor' | 'marks' | 'score')[];
  /** Judge columns on the sheet; more than the panel has leaves some unused. 0: as many as the panel. */
  readonly judgeColumns: number;
  /** What an unused or empty mark prints. */
  readonly missing: '' | '-' | '.';
  /** Calls within the code, raised beside the jump, or (single calls) in the info column only. */
  readonly calls: 'code' | 'raised' | 'info';
  readonly half: 'column' | 'base' | 'code';
  readonly letters: 'suffix' | 'info' | 'line' | 'column';
  /** `two`: the marks stand on a second line under the element. */
  readonly rows: 'one' | 'two';
  readonly head: boolean;
  readonly totals: 'head' | 'foot' | 'both';
  readonly componentsFirst: boolean;
  /** A row under the elements with the sum of base values and the element score. */
  readonly sumRow: boolean;
  /** Skaters on a page; 0: they flow, a skater may run over two pages. */
  readonly perPage: number;
  readonly legend: boolean;
  readonly deductionItems: boolean;
}

const style = (part: Partial<Style>): Style => ({
  face: 'sans',
  size: 9,
  landscape: false,
  rules: 'none',
  folio: null,
  turn: 0,
  ...part,
});

export const FORMS: readonly Form[] = [
  {
    name: 'harbour',
    language: 'en',
    producer: 'pdfmake',
    style: style({ rules: 'rows', folio: 'Page', landscape: true }),
    decimal: '.',
    minus: '-',
    columns: ['no', 'code', 'info', 'base', 'half', 'goe', 'marks', 'referee', 'score'],
    componentColumns: ['name', 'factor', 'marks', 'score'],
    judgeColumns: 0,
    missing: '',
    calls: 'code',
    half: 'column',
    letters: 'suffix',
    rows: 'one',
    head: true,
    totals: 'both',
    componentsFirst: false,
    sumRow: true,
    perPage: 1,
    legend: true,
    deductionItems: true,
  },
  {
    name: 'nordwind',
    language: 'de',
    producer: 'chromium',
    style: style({ face: 'narrow', rules: 'grid', size: 10, folio: 'Seite' }),
    decimal: ',',
    minus: '\u2212',
    columns: ['code', 'no', 'base', 'half', 'score', 'goe', 'marks'],
    componentColumns: ['name', 'score', 'factor', 'marks'],
    judgeColumns: 0,
    missing: '-',
    calls: 'code',
    half: 'column',
    letters: 'line',
    rows: 'one',
    head: true,
    totals: 'foot',
    componentsFirst: false,
    sumRow: false,
    perPage: 2,
    legend: true,
    deductionItems: true,
  },
  {
    name: 'lac',
    language: 'fr',
    producer: 'ghostscript',
    style: style({ face: 'serif', size: 8.5, folio: 'Feuille' }),
    decimal: '.',
    minus: '-',
    columns: ['no', 'marks', 'code', 'base', 'goe', 'score'],
    componentColumns: ['marks', 'name', 'factor', 'score'],
    judgeColumns: 0,
    missing: '.',
    calls: 'raised',
    half: 'base',
    letters: 'suffix',
    rows: 'one',
    head: true,
    totals: 'head',
    componentsFirst: false,
    sumRow: false,
    perPage: 2,
    legend: true,
    deductionItems: true,
  },
  {
    name: 'typewriter',
    language: 'en',
    producer: 'ghostscript',
    style: style({ face: 'mono', size: 7.5, turn: 90, landscape: true }),
    decimal: '.',
    minus: '-',
    columns: ['no', 'code', 'letters', 'base', 'goe', 'marks', 'score'],
    componentColumns: ['name', 'factor', 'marks', 'score'],
    judgeColumns: 9,
    missing: '-',
    calls: 'code',
    half: 'code',
    letters: 'column',
    rows: 'one',
    head: false,
    totals: 'foot',
    componentsFirst: true,
    sumRow: true,
    perPage: 0,
    legend: false,
    deductionItems: false,
  },
  {
    name: 'kita',
    language: 'ja',
    producer: 'chromium',
    style: style({ size: 9, rules: 'rows', folio: '頁' }),
    decimal: '.',
    minus: '-',
    columns: ['no', 'code', 'half', 'base', 'goe', 'score', 'marks'],
    componentColumns: ['name', 'factor', 'score', 'marks'],
    judgeColumns: 0,
    missing: '-',
    calls: 'code',
    half: 'column',
    letters: 'suffix',
    rows: 'two',
    head: true,
    totals: 'head',
    componentsFirst: false,
    sumRow: false,
    perPage: 0,
    legend: true,
    deductionItems: true,
  },
  {
    name: 'bare',
    language: 'en',
    producer: 'pdfmake',
    style: style({ size: 8, face: 'narrow' }),
    decimal: '.',
    minus: '\u2013',
    columns: ['no', 'score', 'base', 'goe', 'code', 'info', 'marks'],
    componentColumns: ['factor', 'score', 'name', 'marks'],
    judgeColumns: 9,
    missing: '-',
    calls: 'info',
    half: 'base',
    letters: 'info',
    rows: 'one',
    head: false,
    totals: 'foot',
    componentsFirst: false,
    sumRow: false,
    perPage: 0,
    legend: false,
    deductionItems: true,
  },
  {
    name: 'saari',
    language: 'fi',
    producer: 'ghostscript',
    style: style({ size: 8, turn: 270, landscape: true, rules: 'grid', folio: 'Sivu' }),
    decimal: '.',
    minus: '-',
    columns: ['no', 'code', 'info', 'base', 'goe', 'marks', 'score'],
    componentColumns: ['name', 'marks', 'factor', 'score'],
    judgeColumns: 9,
    missing: '',
    calls: 'code',
    half: 'base',
    letters: 'info',
    rows: 'two',
    head: true,
    totals: 'both',
    componentsFirst: false,
    sumRow: true,
    perPage: 2,
    legend: true,
    deductionItems: true,
  },
  {
    name: 'broadsheet',
    language: 'en',
    producer: 'chromium',
    style: style({ face: 'serif', size: 11, landscape: true }),
    decimal: '.',
    minus: '\u2212',
    columns: ['marks', 'referee', 'score', 'goe', 'base', 'half', 'code', 'no'],
    componentColumns: ['marks', 'score', 'factor', 'name'],
    judgeColumns: 0,
    missing: '',
    calls: 'raised',
    half: 'column',
    letters: 'line',
    rows: 'one',
    head: true,
    totals: 'both',
    componentsFirst: true,
    sumRow: true,
    perPage: 1,
    legend: false,
    deductionItems: true,
  },
];
