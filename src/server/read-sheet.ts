import { setImmediate } from 'node:timers/promises';
import { gatherSheets, readSheet } from '../intake/index.ts';
import { nodeReaders } from '../intake/node.ts';
import type { Library } from '../rulebook/index.ts';
import type { SheetReader } from './context.ts';

/** Reads sheets with the intake room under these rules; stops between pages when the coach presses Stop. */
export const sheetReader =
  (library: Library): SheetReader =>
  async (bytes, name, progress, signal) => {
    let share: number | null = null;
    let where = '';
    let skaters = 0;
    const tell = () =>
      progress(share, `Reading ${name}: ${where}${skaters} ${skaters === 1 ? 'skater' : 'skaters'} so far.`);
    const onProgress = (done: number, pages: number) => {
      share = done / pages;
      where = `page ${done} of ${pages}, `;
      tell();
    };
    const options = { library, ...nodeReaders({ signal, onProgress }), shouldStop: () => signal.aborted };
    const read = await gatherSheets(breathing(readSheet({ bytes, name }, options)), (so) => {
      skaters = so;
      tell();
    });
    if (signal.aborted) throw new Error('Stopped. Nothing was kept.');
    return read;
  };

const BREATH_MS = 20;

/**
 * The same items; between sheets other requests, and the one to stop, get their turn. Text is read without a
 * pause of its own, and a long one would hold everybody else for seconds.
 */
async function* breathing<T>(items: AsyncIterable<T>): AsyncGenerator<T, void, undefined> {
  let since = performance.now();
  for await (const item of items) {
    yield item;
    if (performance.now() - since < BREATH_MS) continue;
    await setImmediate();
    since = performance.now();
  }
}
