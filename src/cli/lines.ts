/** A line of text with its number from 1; blank lines are counted but not given. */
export interface Line {
  readonly line: number;
  readonly text: string;
}

/** The byte that ends a line. */
export const LF = 10;

/** Splits chunks of bytes into lines in bounded memory (one line at a time); CR before LF is dropped. */
export async function* linesOf(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<Line> {
  let rest: Uint8Array[] = [];
  let line = 0;
  for await (const chunk of chunks) {
    let from = 0;
    for (let at = chunk.indexOf(LF); at >= 0; at = chunk.indexOf(LF, from)) {
      line += 1;
      rest.push(chunk.subarray(from, at));
      const text = decoded(rest, line);
      rest = [];
      from = at + 1;
      if (text !== '') yield { line, text };
    }
    if (from < chunk.length) rest.push(chunk.subarray(from));
  }
  const text = decoded(rest, line + 1);
  if (text !== '') yield { line: line + 1, text };
}

function decoded(parts: readonly Uint8Array[], line: number): string {
  const text = Buffer.concat(parts).toString('utf8').trim();
  return line === 1 ? withoutMark(text) : text;
}

/** Without the byte order mark that some programs put first. */
export const withoutMark = (text: string): string => text.replace(/^\uFEFF/, '');
