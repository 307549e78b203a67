import { createHash } from 'node:crypto';
import { z } from 'zod';
import { fail, ok, type Result } from '../notation/index.ts';
import type { Connection } from './connect.ts';
import { KINDS, kindNames, type Kind } from './kinds.ts';
import { hashOf } from './sheets.ts';

const FORMAT = 'edgeledger-export/1';

const sheetLine = z.object({
  sheet: z.object({
    id: z.string(),
    name: z.string(),
    media: z.string(),
    sha256: z.string(),
    content: z.string(),
    size: z.int(),
    received_at: z.string(),
  }),
});
const recordLine = z.object({ kind: z.enum(kindNames as [Kind, ...Kind[]]), record: z.unknown() });
const headLine = z.object({ format: z.literal(FORMAT) });
const tailLine = z.object({ end: z.object({ lines: z.int(), sha256: z.string() }) });

/**
 * Everything as one text: JSON Lines, a head line, one line per record and sheet, and a closing line
 * with their number and hash, by which a torn copy is recognised.
 */
export async function* exportLines({ db }: Connection): AsyncGenerator<string> {
  const hash = createHash('sha256');
  let lines = 0;
  const line = (value: unknown) => {
    const text = JSON.stringify(value);
    hash.update(text);
    lines += 1;
    return `${text}\n`;
  };
  yield `${JSON.stringify({ format: FORMAT })}\n`;
  for (const kind of kindNames) {
    const rows = await db
      .selectFrom('records')
      .select('record')
      .where('kind', '=', kind)
      .orderBy('sort')
      .orderBy('id')
      .execute();
    for (const row of rows) yield line({ kind, record: JSON.parse(row.record) as unknown });
  }
  const ids = await db.selectFrom('sheets').select('id').orderBy('id').execute();
  for (const { id } of ids) {
    const sheet = await db.selectFrom('sheets').selectAll().where('id', '=', id).executeTakeFirstOrThrow();
    yield line({ sheet });
  }
  yield `${JSON.stringify({ end: { lines, sha256: hash.digest('hex') } })}\n`;
}

/** What an export holds, checked line by line and against its closing line. Nothing is written. */
export interface Export {
  readonly records: readonly { readonly kind: Kind; readonly record: unknown }[];
  readonly sheets: readonly z.infer<typeof sheetLine>['sheet'][];
  /** References that lead nowhere, a sentence each. */
  readonly loose: readonly string[];
}

export function readExport(text: string): Result<Export> {
  // A file that went through an editor may have gained a mark at its head and other line ends.
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .filter((l) => l.trim() !== '');
  const records: { kind: Kind; record: unknown }[] = [];
  const sheets: z.infer<typeof sheetLine>['sheet'][] = [];
  const seen = new Map<string, number>();
  const hash = createHash('sha256');
  const broken = (line: number, found: string, expected: string) =>
    fail({
      code: 'export.line',
      at: `line ${line}`,
      found,
      expected,
      advice: 'Nothing was kept. Use a whole export file, as Edgeledger wrote it.',
    });

  if (!headLine.safeParse(json(lines[0] ?? '')).success) return broken(1, 'no head line', `{"format":"${FORMAT}"}`);
  const tail = tailLine.safeParse(json(lines.at(-1) ?? ''));
  if (!tail.success) return broken(lines.length, 'no closing line: the file is cut off', 'a line {"end":…}');

  for (const [i, line] of lines.slice(1, -1).entries()) {
    hash.update(line);
    const value = json(line);
    const sheet = sheetLine.safeParse(value);
    const record = recordLine.safeParse(value);
    const at = i + 2;
    if (sheet.success) {
      const trouble = troubleOf(sheet.data.sheet);
      if (trouble !== null) return broken(at, trouble, 'a sheet as it was kept');
      const first = seen.get(`sheet ${sheet.data.sheet.id}`);
      if (first !== undefined) return broken(at, `the same sheet as in line ${first}`, 'every sheet once');
      seen.set(`sheet ${sheet.data.sheet.id}`, at);
      sheets.push(sheet.data.sheet);
    } else if (record.success) {
      const checked = KINDS[record.data.kind].safeParse(record.data.record);
      if (!checked.success) return broken(at, line.slice(0, 60), expectedOf(checked.error));
      const key = `${record.data.kind} ${checked.data.id}`;
      const first = seen.get(key);
      if (first !== undefined) return broken(at, `the same record as in line ${first} (${key})`, 'every record once');
      seen.set(key, at);
      records.push(record.data);
    } else return broken(at, line.slice(0, 60), 'a record of a known kind, or a sheet');
  }
  if (hash.digest('hex') !== tail.data.end.sha256 || lines.length - 2 !== tail.data.end.lines) {
    return broken(lines.length, 'lines that do not fit the closing line', 'the lines as they were written');
  }
  return ok({ records, sheets, loose: looseIn(records, seen) });
}

type SheetLine = z.infer<typeof sheetLine>['sheet'];

function troubleOf({ content, size, sha256 }: SheetLine): string | null {
  const bytes = Buffer.from(content, 'base64');
  if (bytes.toString('base64') !== content) return 'a sheet whose content is not base64';
  if (bytes.byteLength !== size) return `a sheet of ${bytes.byteLength} bytes that says it has ${size}`;
  return hashOf(bytes) === sha256 ? null : 'a sheet whose content does not fit its hash';
}

const expectedOf = ({ issues }: z.ZodError): string =>
  issues
    .slice(0, 3)
    .map(({ path, message }) => `${path.join('.')}: ${message}`)
    .join('; ');

/** Records that lead to one that is not in the file. They can be kept; who brings them back should know. */
function looseIn(records: Export['records'], seen: ReadonlyMap<string, number>): string[] {
  return records.flatMap(({ kind, record }) => {
    const { id, skaterId, competitionId, sheetId } = record as Partial<Record<string, string | null>>;
    const wanted = [`skaters ${skaterId ?? ''}`, `competitions ${competitionId ?? ''}`, `sheet ${sheetId ?? ''}`];
    const missing = wanted.filter((key) => !key.endsWith(' ') && !seen.has(key));
    return missing.map((key) => `line ${seen.get(`${kind} ${id ?? ''}`) ?? 0}: ${key} is not in the file`);
  });
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
