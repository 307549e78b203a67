import { inflateSync } from 'node:zlib';
import { boundAllocations, MAX_STREAM_BYTES } from './allocations.ts';

/** Makes single allocations and unpacked streams beyond the ceiling fail in this thread. */
export function lowerCeilings(limit = MAX_STREAM_BYTES): void {
  boundAllocations(limit);
  // The library writes a whole stream and reads it back whole; where this fails it unpacks bit by bit
  // itself, into arrays that the ceiling above holds down.
  const Bounded = function boundedDecompression(format: string): TransformStream<Uint8Array, Uint8Array> {
    if (format !== 'deflate') throw new TypeError('only deflate is unpacked at once');
    return new TransformStream({
      transform: (bytes, controller) => controller.enqueue(inflateSync(bytes, { maxOutputLength: limit })),
    });
  };
  Object.defineProperty(globalThis, 'DecompressionStream', { value: Bounded });
}
