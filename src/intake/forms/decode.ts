import { fail, ok, type Problem, type Result } from '../../notation/index.ts';

/** What the first bytes of a file say it is. */
export type ByteForm = 'pdf' | 'picture' | 'text' | 'unknown';

const MAGIC: readonly (readonly [ByteForm, readonly number[]])[] = [
  ['pdf', [0x25, 0x50, 0x44, 0x46]],
  ['picture', [0x89, 0x50, 0x4e, 0x47]],
  ['picture', [0xff, 0xd8, 0xff]],
  ['picture', [0x49, 0x49, 0x2a, 0x00]],
  ['picture', [0x4d, 0x4d, 0x00, 0x2a]],
  ['picture', [0x52, 0x49, 0x46, 0x46]],
  ['unknown', [0x50, 0x4b, 0x03, 0x04]],
  ['unknown', [0x1f, 0x8b]],
];
const SAMPLE = 65_536;
/** PDF files may have some bytes before their mark. */
const PDF_MARK_WITHIN = 1024;

/** Content decides: PDF, picture, text, or something that is no sheet. */
export function byteForm(bytes: Uint8Array): ByteForm {
  const known = MAGIC.find(([, mark]) => mark.every((byte, i) => bytes[i] === byte));
  if (known !== undefined) return known[0];
  const start = bytes.subarray(0, PDF_MARK_WITHIN);
  for (let i = 0; i + 4 < start.length; i++) {
    if (
      start[i] === 0x25 &&
      start[i + 1] === 0x50 &&
      start[i + 2] === 0x44 &&
      start[i + 3] === 0x46 &&
      start[i + 4] === 0x2d
    )
      return 'pdf';
  }
  return isText(bytes) ? 'text' : 'unknown';
}

const encodingOf = (bytes: Uint8Array): 'utf-16le' | 'utf-16be' | null =>
  bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : null;

/** Hardly any control signs, no zero bytes (unless the file says that it is UTF-16). */
function isText(bytes: Uint8Array): boolean {
  if (encodingOf(bytes) !== null) return true;
  const sample = bytes.subarray(0, SAMPLE);
  let strange = 0;
  for (const byte of sample) {
    if (byte === 0) return false;
    if (byte < 9 || (byte > 13 && byte < 32 && byte !== 27)) strange++;
  }
  return strange * 50 <= sample.length;
}

/** Longest text that is read at once. */
export const MAX_TEXT = 20_000_000;

/** Bytes as text: UTF-8, UTF-16 with its mark, else Windows-1252 where UTF-8 does not fit. */
export function decodeText(bytes: Uint8Array): Result<string> {
  if (bytes.length > MAX_TEXT) return fail(tooLong(bytes.length));
  const wide = encodingOf(bytes);
  if (wide !== null) return ok(new TextDecoder(wide).decode(bytes));
  try {
    return ok(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return ok(new TextDecoder('windows-1252').decode(bytes));
  }
}

export const tooLong = (size: number): Problem => ({
  code: 'intake.too-long',
  at: 'file',
  found: `${Math.round(size / 1_000_000)} MB of text`,
  expected: `at most ${MAX_TEXT / 1_000_000} MB`,
  advice: 'Give one event at a time.',
});

export const NOT_A_SHEET: Problem = {
  code: 'intake.binary',
  at: 'file',
  found: 'bytes that are no text',
  expected: 'a PDF file, a picture, a web page, a table or text',
  advice: 'Check that this is the right file; unpack an archive first.',
};
