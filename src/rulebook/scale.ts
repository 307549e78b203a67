import { JUMP_NAMES, type JumpName } from '../notation/index.ts';
import { percentOf } from './cents.ts';
import { isLevelledSpin, LEVEL_SUFFIXES, OTHER_KINDS, parseCleanJump, signsOf, SPIN_KINDS } from './codes.ts';
import { lazy } from './remember.ts';
import type { Scale } from './schema.ts';
import type { Citation, GoeScale, Hundredths, Unknown, ValueRow } from './types.ts';

type Rows = Map<string, ValueRow>;
type Cite = (path: string) => Citation;

interface Context {
  readonly scale: Scale;
  readonly goe: GoeScale;
  readonly cite: Cite;
}

type Points = Pick<ValueRow, 'base' | 'grades'>;

/** A row whose sources are looked up when somebody asks: most rows are only ever counted with. */
function makeRow(code: string, { base, grades }: Points, cite: () => Citation, gradesCite?: () => Citation): ValueRow {
  const citation = lazy(cite);
  const row = {
    code,
    base,
    grades,
    get citation() {
      return citation();
    },
  };
  if (!gradesCite) return row;
  const gradesCitation = lazy(gradesCite);
  return Object.defineProperty(row, 'gradesCitation', { enumerable: true, get: gradesCitation });
}

/** The weakest mark wins: a figure computed from a remembered one is remembered. */
function together(source: string, parts: readonly Citation[]): Citation {
  const has = (status: string): boolean => parts.some((part) => part.status === status);
  const status = has('memory') ? 'memory' : has('local') ? 'local' : 'published';
  const provisional = parts.some((part) => part.provisional);
  return parts.some((part) => part.weak)
    ? { source, status, provisional, weak: true }
    : { source, status, provisional };
}

const gradeCount = (goe: GoeScale): number => goe.max - goe.min + 1;

/** Points of every grade when one grade is `step`/100 hundredths: each cell is rounded by itself. */
function evenGrades(goe: GoeScale, amount: Hundredths, percent: number): Hundredths[] {
  return Array.from({ length: gradeCount(goe) }, (_, i) => {
    const points = percentOf(amount, Math.abs(percent * (goe.min + i)));
    return goe.min + i < 0 && points > 0 ? -points : points;
  });
}

const noGrades = (goe: GoeScale): Hundredths[] => Array.from({ length: gradeCount(goe) }, () => 0);

/** A row that is known to be without value: judges give no marks. */
function addWorthless(
  rows: Rows,
  { goe, cite }: Context,
  code: string,
  base: Hundredths | Unknown,
  path: string,
): void {
  const points = { base, grades: base === null ? null : noGrades(goe) };
  rows.set(
    code,
    makeRow(code, points, () => cite(path)),
  );
}

/** Elements without level and jumps without rotation. */
function addUnconfirmed(rows: Rows, context: Context): void {
  const { withoutLevel, withoutRotation } = context.scale;
  for (const kind of [...SPIN_KINDS, ...SPIN_KINDS.map((spin) => `${spin}V`), ...OTHER_KINDS]) {
    addWorthless(rows, context, kind, withoutLevel, 'scale.withoutLevel');
  }
  for (const name of JUMP_NAMES) addWorthless(rows, context, name, withoutRotation, 'scale.withoutRotation');
}

/** `<<`: the row of the jump with one turn less, edge call kept; a downgraded single is its own rule. */
function addDowngraded(rows: Rows, context: Context, turns: number, name: JumpName, sign: string): void {
  const code = `${turns}${name}${sign}`;
  if (rows.has(code)) return;
  if (turns === 1) {
    addWorthless(rows, context, code, context.scale.downgradedSingle, 'scale.downgradedSingle');
    return;
  }
  const lower = rows.get(`${turns - 1}${name}${sign.replace('<<', '')}`);
  if (!lower) return;
  const cite = (): Citation => {
    const rule = context.cite('scale.downgrade');
    const source = `the value of ${lower.code} (${lower.citation.source}); one turn less (${rule.source})`;
    return together(source, [lower.citation, rule]);
  };
  rows.set(
    code,
    makeRow(code, lower, cite, () => lower.gradesCitation ?? lower.citation),
  );
}

// ---- from 2018/19: percentages ------------------------------------------------------------------

function addCleanRow(rows: Rows, context: Context, code: string): void {
  const { scale, goe, cite } = context;
  const entry = scale.rows?.[code];
  if (entry === undefined) return;
  const citation = (): Citation => cite(`scale.rows.${code}`);
  const base = typeof entry === 'object' && entry !== null ? entry.base : entry;
  const step = typeof entry === 'object' && entry !== null ? entry.step : undefined;
  if (step === undefined) rows.set(code, percentRow(context, code, base, citation));
  else {
    const grades = base === null || step === null ? null : evenGrades(goe, step, 100);
    rows.set(code, makeRow(code, { base, grades }, citation));
  }
}

function percentRow(
  { scale, goe, cite }: Context,
  code: string,
  base: Hundredths | Unknown,
  citation: () => Citation,
): ValueRow {
  const step = scale.stepPercent;
  const grades = base === null || step === null ? null : evenGrades(goe, base, step);
  return makeRow(code, { base, grades }, citation, () => cite('scale.stepPercent'));
}

function addSigned(rows: Rows, context: Context, clean: ValueRow, sign: '<' | 'e' | 'e<' | 'V'): void {
  const percent = context.scale.signs?.[sign] ?? null;
  const base = clean.base === null || percent === null ? null : percentOf(clean.base, percent);
  const citation = (): Citation => {
    const rule = context.cite(`scale.signs.${sign}`);
    const source =
      percent === null
        ? `value of ${sign} not known (${rule.source})`
        : `${percent} % (${rule.source}) of ${clean.code} (${clean.citation.source})`;
    return together(source, [rule, clean.citation]);
  };
  const code = `${clean.code}${sign}`;
  rows.set(code, percentRow(context, code, base, citation));
}

function compilePercent(context: Context): Rows {
  const rows: Rows = new Map();
  const codes = Object.keys(context.scale.rows ?? {});
  for (const code of codes) addCleanRow(rows, context, code);
  for (const clean of [...rows.values()]) {
    const jump = parseCleanJump(clean.code);
    if (jump) {
      for (const sign of signsOf(jump.name)) {
        if (sign === '<' || sign === 'e' || sign === 'e<') addSigned(rows, context, clean, sign);
      }
    } else if (isLevelledSpin(clean.code)) addSigned(rows, context, clean, 'V');
  }
  for (const code of codes) {
    const jump = parseCleanJump(code);
    if (!jump) continue;
    for (const sign of signsOf(jump.name)) {
      if (sign.endsWith('<<')) addDowngraded(rows, context, jump.turns, jump.name, sign);
    }
  }
  return rows;
}

// ---- to 2017/18: a table ------------------------------------------------------------------------

function addTableRow(rows: Rows, { scale, goe, cite }: Context, code: string): void {
  const entry = scale.table?.rows[code];
  if (!entry) return;
  const { base, goe: name } = entry;
  const citation = (): Citation => cite(`scale.table.rows.${code}.base`);
  if (name === null) {
    rows.set(code, makeRow(code, { base, grades: base === 0 ? noGrades(goe) : null }, citation));
    return;
  }
  const grades = scale.table?.classes[name] ?? null;
  rows.set(
    code,
    makeRow(code, { base, grades }, citation, () => cite(`scale.table.classes.${name}`)),
  );
}

/** Codes that existed in the table but have no row here: base not known, said as such. */
function addUnseen(rows: Rows, { scale, cite }: Context): void {
  const unseen = { base: scale.table?.otherwise ?? null, grades: null };
  const add = (code: string): unknown =>
    rows.has(code) ||
    rows.set(
      code,
      makeRow(code, unseen, () => cite('scale.table.otherwise')),
    );
  for (let turns = 1; turns <= (scale.table?.maxTurns ?? 0); turns += 1) {
    for (const name of JUMP_NAMES) {
      if (name !== 'Eu') for (const sign of signsOf(name)) add(`${turns}${name}${sign}`);
    }
  }
  for (const kind of SPIN_KINDS) {
    for (const level of LEVEL_SUFFIXES) for (const v of ['', 'V', 'V2']) add(`${kind}${level}${v}`);
  }
  for (const level of LEVEL_SUFFIXES) add(`StSq${level}`);
  add('ChSq1');
}

function compileTable(context: Context): Rows {
  const rows: Rows = new Map();
  for (const code of Object.keys(context.scale.table?.rows ?? {})) addTableRow(rows, context, code);
  for (let turns = 1; turns <= (context.scale.table?.maxTurns ?? 0); turns += 1) {
    for (const name of JUMP_NAMES) {
      if (name === 'Eu') continue;
      for (const sign of signsOf(name)) if (sign.endsWith('<<')) addDowngraded(rows, context, turns, name, sign);
    }
  }
  addUnseen(rows, context);
  return rows;
}

/** All rows of a season's scale of values, by canonical row code. */
export function compileScale(scale: Scale, goe: GoeScale, cite: Cite): ReadonlyMap<string, ValueRow> {
  const context = { scale, goe, cite };
  const rows = scale.table ? compileTable(context) : compilePercent(context);
  addUnconfirmed(rows, context);
  return rows;
}
