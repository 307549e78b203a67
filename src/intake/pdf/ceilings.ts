import { inflateSync } from 'node:zlib';

/**
 * Ceilings on what one stream of a PDF may unpack to. A file of a few kilobytes can declare or unpack
 * to gigabytes; the library would allocate them in one go, faster than anybody watching from outside
 * can stop it. Only for a thread that does nothing but read one PDF.
 */

/** Room for a page scanned in colour at 400 dpi. */
const MAX_STREAM_BYTES = 128_000_000;

/** Makes single allocations and unpacked streams beyond the ceiling fail in this thread. */
export function lowerCeilings(limit = MAX_STREAM_BYTES): void {
  const plainBytes = globalThis.Uint8Array;
  globalThis.Uint8Array = new Proxy(plainBytes, {
    construct(target, args: [unknown], created) {
      if (typeof args[0] === 'number' && args[0] > limit) throw new RangeError('stream unpacks to too much');
      return Reflect.construct(target, args, created === globalThis.Uint8Array ? target : created) as Uint8Array;
    },
  });
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
