import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatPath, isTree, leaves, lookUp, merge, parsePath } from './tree.ts';

/** Laws of the tree functions; documents as rulebooks have them: no empty objects, no dots in keys. */

const key = fc.constantFrom('a', 'b', 'c', 'senior women', '<', 'e<', 'to');
const leaf = fc.oneof(fc.integer(), fc.boolean(), fc.constant(null), fc.constantFrom('x', 'y'), fc.array(fc.integer()));
const { tree } = fc.letrec((tie) => ({
  tree: fc.dictionary(key, fc.oneof({ weight: 2, arbitrary: leaf }, { weight: 1, arbitrary: tie('tree') }), {
    minKeys: 1,
    maxKeys: 4,
    noNullPrototype: true,
  }),
}));

describe('merge', () => {
  it('of a document with itself changes nothing', () => {
    fc.assert(
      fc.property(tree, (a) => {
        expect(merge(a, a)).toEqual(a);
      }),
    );
  });

  it('lets every value of the later document win, null too', () =>
    fc.assert(
      fc.property(tree, tree, (a, b) => {
        const merged = merge(a, b);
        for (const { path, value } of leaves(b)) expect(lookUp(merged, path)).toEqual({ found: true, value });
      }),
    ));

  it('keeps what the later document does not speak of', () =>
    fc.assert(
      fc.property(tree, tree, (a, b) => {
        const merged = merge(a, b);
        // The later document speaks of a path if it replaces the leaf or something on the way to it.
        const spoken = (path: readonly (string | number)[]): boolean =>
          path.some((_, i) => {
            const [was, is] = [lookUp(a, path.slice(0, i + 1)), lookUp(b, path.slice(0, i + 1))];
            return is.found && !(isTree(was.value) && isTree(is.value));
          });
        for (const { path, value } of leaves(a)) {
          if (!spoken(path)) expect(lookUp(merged, path)).toEqual({ found: true, value });
        }
      }),
    ));

  it('touches neither document', () =>
    fc.assert(
      fc.property(tree, tree, (a, b) => {
        const before = JSON.stringify([a, b]);
        merge(a, b);
        expect(JSON.stringify([a, b])).toBe(before);
      }),
    ));

  it('replaces lists whole', () =>
    expect(merge({ a: [1, 2, 3], b: { c: 1 } }, { a: [9], b: null })).toEqual({ a: [9], b: null }));
});

describe('paths', () => {
  it('print and read back', () =>
    fc.assert(
      fc.property(fc.array(fc.oneof(key, fc.nat(99)), { minLength: 1 }), (parts) => {
        // A path begins with a key.
        const path = ['values', ...parts];
        expect(parsePath(formatPath(path))).toEqual(path);
      }),
    ));

  it('find every leaf', () =>
    fc.assert(
      fc.property(tree, (a) => {
        for (const { path, value } of leaves(a)) expect(lookUp(a, path)).toEqual({ found: true, value });
      }),
    ));

  it('do not find what is inherited by every object', () => {
    expect(lookUp({}, ['constructor']).found).toBe(false);
    expect(lookUp({ a: 1 }, ['a', 'toFixed']).found).toBe(false);
  });
});
