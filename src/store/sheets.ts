import { createHash } from 'node:crypto';
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
  /**
   * Keeps what arrived unless the very same bytes are kept already.
   * @param arrival `id` is used only if the bytes are new.
   * @returns the id under which these bytes are kept.
   */
  keepOnce(arrival: Omit<Sheet, 'sha256'>): Promise<string>;
  get(id: string): Promise<Sheet | null>;
  /** Id of a kept sheet with these bytes, by its hash. */
  known(sha256: string): Promise<string | null>;
}

/** By this the same bytes are known again. */
export const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

export function sheetStore({ db }: Connection): SheetStore {
  const store: SheetStore = {
    async keepOnce(arrival) {
      const sha256 = hashOf(arrival.bytes);
      const known = await store.known(sha256);
      if (known === null) await store.keep({ ...arrival, sha256 });
      return known ?? arrival.id;
    },
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
  return store;
}
