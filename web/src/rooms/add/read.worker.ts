import { noProgress, readHere, type NeedsPictures, type SheetRead } from '../../../../src/intake/browser.ts';
import { loadOwnRules } from '../../data/own-rules.ts';
import { rules } from '../../data/rules.ts';

export interface ReadJob {
  readonly bytes: Uint8Array;
  /** After so many seconds without a word the worker will be ended. */
  readonly patience: number;
  readonly name: string;
}

/** What the worker tells; the PDF library may post words of its own on the same way, which carry no `tell`. */
export type Told =
  | { readonly tell: 'begun'; readonly ifSilent: string }
  | {
      readonly tell: 'progress';
      readonly done: { readonly page: number; readonly pages: number } | null;
      readonly skaters: number;
    }
  | { readonly tell: 'read'; readonly read: SheetRead }
  | { readonly tell: 'pictures'; readonly where: NeedsPictures }
  | { readonly tell: 'broken'; readonly why: string };

const tell = (what: Told) => self.postMessage(what);

async function run({ bytes, name, patience }: ReadJob): Promise<void> {
  tell({ tell: 'begun', ifSilent: noProgress(patience) });
  await loadOwnRules();
  const read = await readHere(
    { bytes, name },
    {
      library: rules(),
      tables: '/pdf/',
      onProgress: (done, skaters) => tell({ tell: 'progress', done, skaters }),
    },
  );
  // Undefined fields are left out, as on the way from the server.
  tell('page' in read ? { tell: 'pictures', where: read } : { tell: 'read', read: plain(read) });
}

const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

self.onmessage = ({ data }: MessageEvent<ReadJob>) => {
  self.onmessage = null;
  run(data).catch((error: unknown) =>
    tell({ tell: 'broken', why: error instanceof Error ? error.message : String(error) }),
  );
};
