/**
 * What makes the library slow in a thread of its own, taken out of its way. Only for a thread that does
 * nothing but read one PDF: two functions of the whole thread are exchanged.
 */

/**
 * Loads the library by `load` and puts the engine's own `push` back, which the library's build for older
 * engines replaces by a slow one. That guards against a fault with arrays that are frozen, which it has
 * none of.
 */
export async function withOwnPush<T>(load: () => Promise<T>): Promise<T> {
  const { push } = Array.prototype;
  try {
    return await load();
  } finally {
    Array.prototype.push = push;
  }
}

/**
 * Both halves of the library talk in messages, and in one thread every message is copied by
 * `structuredClone`, which costs as much as finding the words. Plain data is copied here; for all else
 * the engine's own function is called.
 */
export function copyPlainDataSwiftly(): void {
  const whole = globalThis.structuredClone;
  globalThis.structuredClone = function structuredClone<T>(value: T, options?: Parameters<typeof whole>[1]): T {
    if (options?.transfer !== undefined && options.transfer.length > 0) return whole(value, options);
    const copy = copyOf(value, 0);
    return copy === NOT_PLAIN ? whole(value, options) : (copy as T);
  };
}

const NOT_PLAIN = Symbol('not plain data');
/** Messages are flat; what nests deeper, or comes back to itself, is the engine's to copy. */
const DEEPEST = 12;

function copyOf(value: unknown, depth: number): unknown {
  if (typeof value !== 'object' || value === null)
    return typeof value === 'function' || typeof value === 'symbol' ? NOT_PLAIN : value;
  if (depth > DEEPEST) return NOT_PLAIN;
  if (Array.isArray(value)) {
    const list: unknown[] = [];
    for (const one of value) {
      const copy = copyOf(one, depth + 1);
      if (copy === NOT_PLAIN) return NOT_PLAIN;
      list.push(copy);
    }
    return list;
  }
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) return NOT_PLAIN;
  const object: Record<string, unknown> = {};
  for (const key of Object.keys(value)) {
    const copy = key === '__proto__' ? NOT_PLAIN : copyOf((value as Record<string, unknown>)[key], depth + 1);
    if (copy === NOT_PLAIN) return NOT_PLAIN;
    object[key] = copy;
  }
  return object;
}
