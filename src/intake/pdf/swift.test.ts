import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { copyPlainDataSwiftly, withOwnPush } from './swift.ts';

const own = globalThis.structuredClone;
const { push } = Array.prototype;

afterEach(() => {
  globalThis.structuredClone = own;
  Array.prototype.push = push;
});

const data = fc.anything({
  withMap: true,
  withSet: true,
  withDate: true,
  withTypedArray: true,
  withNullPrototype: true,
});

describe('messages in a thread of its own', () => {
  it('are copied as the engine copies them', () => {
    copyPlainDataSwiftly();
    fc.assert(
      fc.property(data, (value) => {
        expect(structuredClone(value)).toStrictEqual(own(value));
      }),
    );
  });

  it('share nothing with what was sent', () => {
    copyPlainDataSwiftly();
    const sent = { items: [{ str: '3Lz', transform: [1, 0, 0, 1, 0, 0] }], styles: Object.create(null) as object };
    const got = structuredClone(sent);
    sent.items.push({ str: '2A', transform: [] });
    sent.items[0]?.transform.fill(9);
    expect(got).toEqual({ items: [{ str: '3Lz', transform: [1, 0, 0, 1, 0, 0] }], styles: {} });
  });

  it('that are no plain data go the way of the engine', () => {
    copyPlainDataSwiftly();
    expect(() => structuredClone({ a: () => 1 })).toThrow();
    const loop: { self?: unknown } = {};
    loop.self = loop;
    const copy = structuredClone(loop);
    expect(copy.self).toBe(copy);
    const bytes = new Uint8Array([1, 2]);
    expect(structuredClone(bytes, { transfer: [bytes.buffer] })).toEqual(new Uint8Array([1, 2]));
    expect(bytes).toHaveLength(0);
    expect(structuredClone(JSON.parse('{"__proto__":{"a":1}}'))).toHaveProperty('__proto__');
  });

  it('leave the engine’s own push in place', async () => {
    const loaded = await withOwnPush(() => {
      Array.prototype.push = () => 0;
      return Promise.resolve('library');
    });
    expect(loaded).toBe('library');
    expect(Array.prototype.push).toBe(push);
  });
});
