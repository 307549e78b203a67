/**
 * A file of a few kilobytes can declare or unpack to gigabytes; the library would allocate them in one
 * go, faster than anybody watching from outside can stop it. Only for a thread that reads one file.
 */

/** Room for a page scanned in colour at 400 dpi. */
export const MAX_STREAM_BYTES = 128_000_000;

/** Makes single allocations beyond the limit fail in this thread. */
export function boundAllocations(limit: number): void {
  const plainBytes = globalThis.Uint8Array;
  globalThis.Uint8Array = new Proxy(plainBytes, {
    construct(target, args: [unknown], created) {
      if (typeof args[0] === 'number' && args[0] > limit) throw new RangeError('stream unpacks to too much');
      return Reflect.construct(target, args, created === globalThis.Uint8Array ? target : created) as Uint8Array;
    },
  });
}
