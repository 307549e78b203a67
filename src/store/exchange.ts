import { createHash } from 'node:crypto';
import { z } from 'zod';
import { fail, ok, type Result } from '../notation/index.ts';
import type { Connection } from './connect.ts';
import { KINDS, kindNames, type Kind } from './kinds.ts';

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
}

export function readExport(text: string): Result<Export> {
  // A file that went through an editor may have gained a mark at its head and other line ends.
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r?\n/)
    .filter((l) => l.trim() !== '');
  const records: { kind: Kind; record: unknown }[] = [];
  const sheets: z.infer<typeof sheetLine>['sheet'][] = [];
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
    if (sheet.success) sheets.push(sheet.data.sheet);
    else if (record.success && KINDS[record.data.kind].safeParse(record.data.record).success) records.push(record.data);
    else return broken(i + 2, line.slice(0, 60), 'a record of a known kind, or a sheet');
  }
  if (hash.digest('hex') !== tail.data.end.sha256 || lines.length - 2 !== tail.data.end.lines) {
    return broken(lines.length, 'lines that do not fit the closing line', 'the lines as they were written');
  }
  return ok({ records, sheets });
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
