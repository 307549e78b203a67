import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import sharp from 'sharp';
import { createWorker, OEM, PSM, type Worker } from 'tesseract.js';
import type { Grey } from './grey.ts';
import type { ReadSymbol } from './reread.ts';

/** Recognises characters; its language data lies in the installed package, nothing is fetched. Stop it when done. */
export interface TextReader {
  read(picture: Grey): Promise<ReadSymbol[]>;
  stop(): Promise<void>;
}

/** Starts text recognition, which takes about a second; one reader serves many pictures, one after another. */
export async function startTextReader(): Promise<TextReader> {
  const root = dirname(createRequire(import.meta.url).resolve('@tesseract.js-data/eng/package.json'));
  const worker = await createWorker('eng', OEM.LSTM_ONLY, {
    langPath: join(root, '4.0.0_best_int'),
    gzip: true,
    cacheMethod: 'none',
    errorHandler: () => undefined,
  });
  await worker.setParameters({
    tessedit_pageseg_mode: PSM.SINGLE_BLOCK,
    preserve_interword_spaces: '1',
    user_defined_dpi: '300',
  });
  return { read: (picture) => readSymbols(worker, picture), stop: () => worker.terminate().then(() => undefined) };
}

async function readSymbols(worker: Worker, picture: Grey): Promise<ReadSymbol[]> {
  const raw = { width: picture.width, height: picture.height, channels: 1 } as const;
  const image = await sharp(picture.data, { raw }).png({ compressionLevel: 1 }).toBuffer();
  const { data } = await worker.recognize(image, {}, { blocks: true, text: false });
  const lines = (data.blocks ?? []).flatMap((block) => block.paragraphs.flatMap((part) => part.lines));
  return lines.flatMap((line) =>
    line.words.flatMap((word) =>
      word.symbols.map(({ text, confidence, bbox }) => ({ text, confidence: confidence / 100, ...bbox })),
    ),
  );
}
