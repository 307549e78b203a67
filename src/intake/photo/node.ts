import sharp from 'sharp';
import { fail, ok, type Problem, type Result } from '../../notation/index.ts';
import type { Token } from '../token.ts';
import type { Grey } from './grey.ts';
import { prepared, upsideDown } from './prepare.ts';
import { tokensOfPicture } from './reread.ts';
import type { TextReader } from './text.ts';

/** Pixels beyond which a picture is refused: a camera of 60 megapixels. */
const MAX_PIXELS = 60_000_000;

/** Words of a photographed or scanned sheet, with confidences and rival readings. */
export async function tokensOfPhoto(
  bytes: Uint8Array,
  reader: TextReader,
  page = 1,
): Promise<Result<readonly Token[]>> {
  const photo = await decoded(bytes);
  return photo.ok ? ok(await tokensOfGrey(photo.value, reader, page)) : photo;
}

/** As `tokensOfPhoto`, for a picture that is already decoded (a page of a scanned PDF). */
export async function tokensOfGrey(photo: Grey, reader: TextReader, page: number): Promise<readonly Token[]> {
  const { picture, sure } = prepared(photo);
  const read = async (one: Grey): Promise<Token[]> =>
    tokensOfPicture(await sharpened(one), (strip) => reader.read(strip), page);
  const tokens = await read(picture);
  if (sure || readable(tokens) >= READABLE) return tokens;
  const others = await read(upsideDown(picture));
  return readable(others) > readable(tokens) ? others : tokens;
}

/** Share of words that are points or codes, read with confidence; of a sheet upside down hardly any are. */
const READABLE = 0.2;
const POINTS_OR_CODE = /^-?\d{1,3}[.,]\d\d$|^[1-4](?:T|S|Lo|F|Lz|A)\b|^F?C?(?:Co|[ULCS])Sp|^StSq|^ChSq/;

const readable = (tokens: readonly Token[]): number =>
  tokens.filter(({ text, confidence }) => (confidence ?? 1) >= 0.7 && POINTS_OR_CODE.test(text)).length /
  Math.max(1, tokens.length);

async function decoded(bytes: Uint8Array): Promise<Result<Grey>> {
  try {
    const image = sharp(bytes, { limitInputPixels: MAX_PIXELS, failOn: 'error' })
      .autoOrient()
      .flatten({ background: 'white' });
    const { data, info } = await image.greyscale().toColourspace('b-w').raw().toBuffer({ resolveWithObject: true });
    return ok({ data: new Uint8Array(data), width: info.width, height: info.height });
  } catch (error) {
    return fail(unreadable(error));
  }
}

/** A little sharper, as print is before it is photographed. */
async function sharpened(picture: Grey): Promise<Grey> {
  const raw = { width: picture.width, height: picture.height, channels: 1 } as const;
  const image = sharp(picture.data, { raw }).sharpen({ sigma: 1.5 }).toColourspace('b-w');
  const { data, info } = await image.raw().toBuffer({ resolveWithObject: true });
  return { data: new Uint8Array(data), width: info.width, height: info.height };
}

function unreadable(error: unknown): Problem {
  const reason = error instanceof Error ? (error.message.split('\n', 1)[0] ?? '') : '';
  return {
    code: 'photo.unreadable',
    at: 'picture',
    found: `something that cannot be opened as a picture (${reason.replace(/[^\x20-\x7e]/g, '?').slice(0, 100)})`,
    expected: 'a JPEG, PNG, WebP or TIFF picture of at most 60 megapixels',
    advice: 'Save it in one of these forms, or make it smaller, and read it again.',
  };
}
