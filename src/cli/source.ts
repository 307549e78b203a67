import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';

import { UsageError, type Io } from './io.ts';

/** Bytes of a file or of standard input, read once, with a look ahead. */
export interface Source {
  /** The name given on the command line; `-` is standard input. */
  readonly name: string;
  /** Everything not yet taken. */
  readonly chunks: AsyncIterator<Uint8Array>;
}

/** Opens a file or `-`. A file that is missing, a folder or not readable is bad usage. */
export async function openSource(name: string, io: Io): Promise<Source> {
  if (name === '-') return { name, chunks: io.input()[Symbol.asyncIterator]() };
  const trouble = await stat(name).then(
    (found) => (found.isDirectory() ? 'is a folder; give a file, or - for standard input' : null),
    (error: unknown) => `cannot be opened (${reason(error)}); check the path`,
  );
  if (trouble !== null) throw new UsageError(`${name}: ${trouble}.`);
  return { name, chunks: guarded(name, createReadStream(name, { highWaterMark: 256 * 1024 })) };
}

async function* guarded(name: string, stream: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  try {
    yield* stream;
  } catch (error) {
    throw new UsageError(`${name}: cannot be read (${reason(error)}).`);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'no permission',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of the path is not a folder',
};

function reason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown reason';
  return REASONS[code] ?? code;
}

/** The rest of a source as one piece; null when it is longer than `limit` bytes. */
export async function readRest(head: readonly Uint8Array[], source: Source, limit: number): Promise<Buffer | null> {
  const chunks = [...head];
  let size = chunks.reduce((sum, chunk) => sum + chunk.length, 0);
  while (size <= limit) {
    const next = await source.chunks.next();
    if (next.done === true) return Buffer.concat(chunks);
    chunks.push(next.value);
    size += next.value.length;
  }
  return null;
}
