import type { Connection } from './connect.ts';

/** An original sheet exactly as it arrived, kept so that a better reader can read it again. */
export interface Sheet {
  readonly id: string;
  readonly name: string;
  readonly media: string;
  readonly sha256: string;
  readonly bytes: Uint8Array;
  readonly receivedAt: string;
}

export interface SheetStore {
  /** Keeps a sheet; the same bytes under the same id are kept once. */
  keep(sheet: Sheet): Promise<void>;
  get(id: string): Promise<Sheet | null>;
  /** Id of a kept sheet with these bytes, by its hash. */
  known(sha256: string): Promise<string | null>;
}

export function sheetStore({ db }: Connection): SheetStore {
  return {
    async keep(sheet) {
      const row = {
        id: sheet.id,
        name: sheet.name,
        media: sheet.media,
        sha256: sheet.sha256,
        content: Buffer.from(sheet.bytes).toString('base64'),
        size: sheet.bytes.byteLength,
        received_at: sheet.receivedAt,
      };
      await db
        .insertInto('sheets')
        .values(row)
        .onConflict((c) => c.column('id').doNothing())
        .execute();
    },
    async get(id) {
      const row = await db.selectFrom('sheets').selectAll().where('id', '=', id).executeTakeFirst();
      if (row === undefined) return null;
      const { name, media, sha256, content, received_at: receivedAt } = row;
      return { id, name, media, sha256, bytes: new Uint8Array(Buffer.from(content, 'base64')), receivedAt };
    },
    async known(sha256) {
      const row = await db.selectFrom('sheets').select('id').where('sha256', '=', sha256).executeTakeFirst();
      return row?.id ?? null;
    },
  };
}
