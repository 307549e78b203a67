import type { Result } from '../../notation/index.ts';
import { fail, ok } from '../../notation/index.ts';
import { parsedCode } from '../recognise/cell.ts';
import { tokensOfCells } from './text-lines.ts';
import type { SourceLine } from './text-lines.ts';
import type { Given } from '../recognise/reading.ts';

/** What a column of a table of records can hold. */
export const ROLES = [
  'skater',
  'category',
  'segment',
  'season',
  'date',
  'competition',
  'body',
  'rank',
  'startNumber',
  'no',
  'code',
  'info',
  'half',
  'base',
  'goe',
  'score',
  'feedback',
  'component',
  'factor',
  'mark',
  'referee',
  'tes',
  'pcs',
  'total',
  'deductions',
  'bonus',
  'ignore',
] as const;
export type Role = (typeof ROLES)[number];

/** Column heading (or its number from 1) -> role: what `--map FILE` holds. */
export type ColumnMap = Readonly<Record<string, Role>>;

const HEADINGS: readonly (readonly [RegExp, Role])[] = [
  [/^(?:j|judge|juge|p|pr|richter|mark|tuomari)[ _.-]?\d{1,2}$/iu, 'mark'],
  [/^(?:skater|name|athlete|läufer(?:in)?|competitor|nom|luistelija)$/iu, 'skater'],
  [/^(?:category|kategorie|catégorie|class|discipline)$/iu, 'category'],
  [/^(?:segment|program|programme?)$/iu, 'segment'],
  [/^(?:season|saison)$/iu, 'season'],
  [/^(?:date|datum)$/iu, 'date'],
  [/^(?:competition|event|wettbewerb|compétition)$/iu, 'competition'],
  [/^(?:body|federation)$/iu, 'body'],
  [/^(?:rank|place|platz|rang|pl\.?)$/iu, 'rank'],
  [/^(?:start[ _]?(?:number|nr|no)?|startnummer|starting[ _]number|stn\.?)$/iu, 'startNumber'],
  [/^(?:no|nr|#|elem(?:ent)?[ _.]?(?:no|nr|number))\.?$/iu, 'no'],
  [/^(?:code|element|elements|executed[ _]elements?|executed|élément)$/iu, 'code'],
  [/^(?:info|note|hinweis)$/iu, 'info'],
  [/^(?:half|x|second[ _]half|credit)$/iu, 'half'],
  [/^(?:base|base[ _]?value|bv|basiswert|valeur(?: de base)?)$/iu, 'base'],
  [/^goe(?:[ _]?points)?$/iu, 'goe'],
  [/^(?:score|panel|scores?[ _]of[ _]panel|element[ _]score|ergebnis|points|panel[ _]score)$/iu, 'score'],
  [/^(?:feedback|letters|fb|kp|key[ _]points)$/iu, 'feedback'],
  [/^(?:component|komponente|composante|component[ _]name)$/iu, 'component'],
  [/^(?:factor|faktor|coefficient)$/iu, 'factor'],
  [/^(?:ref|referee|sr)\.?$/iu, 'referee'],
  [/^(?:tes|technical[ _]score|total[ _]element[ _]score)$/iu, 'tes'],
  [/^(?:pcs|tcs|component[ _]score|total[ _]component[ _]score)$/iu, 'pcs'],
  [/^(?:total|tss|segment[ _]score|total[ _]segment[ _]score|gesamt)$/iu, 'total'],
  [/^(?:deductions?|ded\.?|abzüge)$/iu, 'deductions'],
  [/^bonus$/iu, 'bonus'],
];

/** Roles of the columns of a heading row; null if it is no heading of a table of records. */
export function recordRoles(heading: readonly string[], map: ColumnMap | undefined): (Role | null)[] | null {
  const roles = heading.map((cell, i): Role | null => {
    const mapped = map?.[cell.trim()] ?? map?.[String(i + 1)];
    return mapped ?? HEADINGS.find(([pattern]) => pattern.test(cell.trim()))?.[1] ?? null;
  });
  const has = (role: Role): boolean => roles.includes(role);
  const isRecords = has('code') && (has('skater') || map !== undefined) && (has('mark') || has('base') || has('score'));
  return isRecords ? roles : null;
}

/** One skater's records as the lines of a sheet, and what the records say about the event. */
export interface RecordSheet {
  readonly given: Given;
  readonly lines: readonly SourceLine[];
}

/**
 * Groups records (one row per element or component) into sheets; rows of one skater, category and
 * segment belong together wherever they stand.
 */
export function sheetsOfRecords(
  rows: readonly (readonly string[])[],
  roles: readonly (Role | null)[],
  firstLine: number,
): RecordSheet[] {
  const groups = new Map<string, { row: readonly string[]; at: number }[]>();
  rows.forEach((row, i) => {
    if (row.every((cell) => cell.trim() === '')) return;
    const key = (['skater', 'category', 'segment', 'competition'] as const)
      .map((role) => valueOf(row, roles, role))
      .join('|');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [{ row, at: firstLine + i }]);
    else group.push({ row, at: firstLine + i });
  });
  return [...groups.values()].map((group) => sheetOf(group, roles));
}

const valueOf = (row: readonly string[], roles: readonly (Role | null)[], role: Role): string => {
  const i = roles.indexOf(role);
  return i < 0 ? '' : (row[i] ?? '').trim();
};

function sheetOf(
  group: readonly { row: readonly string[]; at: number }[],
  roles: readonly (Role | null)[],
): RecordSheet {
  const value = (role: Role): string =>
    group.map(({ row }) => valueOf(row, roles, role)).find((one) => one !== '') ?? '';
  const at = `line ${group[0]?.at ?? 0}`;
  const line = (cells: readonly string[], where: string): SourceLine => ({
    tokens: tokensOfCells(cells, 1),
    at: where,
  });
  const labelled = (['rank', 'startNumber'] as const)
    .filter((role) => value(role) !== '')
    .map((role) => line([LABEL[role], value(role)], at));
  const rows = group.map(({ row, at: number }) => line(rowCells(row, roles), `line ${number}`));
  const totals = (['tes', 'pcs', 'bonus', 'deductions', 'total'] as const).filter((role) => value(role) !== '');
  return {
    given: givenOf(value),
    lines: [
      line([`${LABEL.skater}:`, value('skater')], at),
      ...labelled,
      line(judgeHeads(roles), at),
      ...rows,
      ...totals.map((role) => line([LABEL[role], twoDecimals(value(role))], at)),
    ],
  };
}

/** Column heads for the judges: their number is known here. */
const judgeHeads = (roles: readonly (Role | null)[]): string[] =>
  roles.filter((role) => role === 'mark').map((_, i) => `J${i + 1}`);

const LABEL = {
  skater: 'Skater',
  rank: 'Rank',
  startNumber: 'Start',
  tes: 'TES',
  pcs: 'PCS',
  total: 'Total',
  deductions: 'Deductions',
  bonus: 'Bonus',
} as const;

/** Tables made by programs print 9.4 or 10 for 9.40 and 10.00. */
const twoDecimals = (text: string): string =>
  /^[+-]?\d+$/.test(text) ? `${text}.00` : /^[+-]?\d+[.,]\d$/.test(text) ? `${text}0` : text;

const POINTS: ReadonlySet<Role> = new Set(['base', 'goe', 'score', 'factor']);

/** Cells of one record in the order of a plain sheet; a column that is empty keeps its place. */
function rowCells(row: readonly string[], roles: readonly (Role | null)[]): string[] {
  const cell = (role: Role): string => {
    const text = valueOf(row, roles, role);
    return POINTS.has(role) ? twoDecimals(text) : text;
  };
  const marks = roles.flatMap((role, i) => (role === 'mark' ? [(row[i] ?? '').trim()] : []));
  const name = cell('component') === '' ? cell('code') : cell('component');
  const isComponent = cell('component') !== '' || (cell('factor') !== '' && parsedCode(name) === null);
  if (isComponent)
    return [name, cell('factor'), ...marks.map((mark) => (mark === '' ? '-' : twoDecimals(mark))), cell('score')];
  const half = /^(?:x|true|1|yes|ja)$/i.test(cell('half')) ? 'x' : '';
  const grades = marks.map((mark) => (mark === '' ? '-' : mark.replace(/[.,]0+$/, '')));
  return [
    cell('no'),
    cell('code'),
    cell('info'),
    cell('base'),
    half,
    cell('goe'),
    ...grades,
    cell('score'),
    cell('feedback'),
  ];
}

function givenOf(value: (role: Role) => string): Given {
  const text = (role: Role): string | undefined => (value(role) === '' ? undefined : value(role));
  const segment = /short|kurz|court|^sp$/i.test(value('segment'))
    ? 'short'
    : /free|kür|libre|^fs$|long/i.test(value('segment'))
      ? 'free'
      : undefined;
  return {
    season: text('season'),
    category: text('category'),
    segment,
    competition: text('competition'),
    date: text('date'),
    body: text('body'),
  };
}

/** Checks what a `--map` file holds: an object of column headings and roles. */
export function readColumnMap(value: unknown): Result<ColumnMap> {
  const problem = (at: string, found: string) =>
    fail({
      code: 'intake.map',
      at,
      found,
      expected: `a column heading and one of ${ROLES.join(', ')}`,
      advice: 'Write for example { "Elem.": "code" }.',
    });
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return problem('map', typeof value);
  const columns: unknown = 'columns' in value ? value.columns : value;
  if (typeof columns !== 'object' || columns === null) return problem('columns', typeof columns);
  const map: Record<string, Role> = {};
  for (const [name, given] of Object.entries(columns)) {
    const role = ROLES.find((one) => one === given);
    if (role === undefined) return problem(name, String(given));
    map[name] = role;
  }
  return ok(map);
}
