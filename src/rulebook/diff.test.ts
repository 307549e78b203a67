import { describe, expect, it } from 'vitest';
import { diffRulebooks, shippedLibrary, type Rulebook } from './index.ts';
import { isTree, lookUp, parsePath, type Tree } from './tree.ts';

const library = shippedLibrary();
const rulebook = (id: string): Rulebook => {
  const found = library.rulebook(id);
  if (!found) throw new Error(`no rulebook ${id}`);
  return found;
};

/** Sets (or, with undefined, removes) the value at a path, making the way where there is none. */
function set(root: unknown, path: readonly (string | number)[], value: unknown): unknown {
  const [part, ...rest] = path;
  if (part === undefined) return value;
  const base: Tree = isTree(root) ? root : {};
  const below = set(base[String(part)], rest, value);
  return Object.fromEntries(
    Object.entries({ ...base, [String(part)]: below }).filter(([, item]) => item !== undefined),
  );
}

const FAMILIES = ['values', 'scale', 'components', 'deductions', 'steps', 'spins', 'content', 'ages', 'reductions'];
const rules = (book: Rulebook): Tree =>
  Object.fromEntries(FAMILIES.map((family) => [family, lookUp(book.document, [family]).value]));

describe('diffRulebooks', () => {
  it.each(library.list())('finds nothing between %s and itself', (id) =>
    expect(diffRulebooks(rulebook(id), rulebook(id))).toEqual([]),
  );

  it.each(library.list())('applied to the season before gives %s again', (id) => {
    const list = library.list().filter((other) => other.startsWith(id.slice(0, id.indexOf('/'))));
    const before = rulebook(list[list.indexOf(id) - 1] ?? id);
    const after = rulebook(id);
    const changes = diffRulebooks(before, after).filter((one) => FAMILIES.includes(String(parsePath(one.path)[0])));
    const applied = changes.reduce<unknown>(
      (document, change) => set(document, parsePath(change.path), change.after?.value),
      rules(before),
    );
    expect(JSON.parse(JSON.stringify(applied))).toEqual(pruned(rules(after)));
  });

  it('reports each changed value once, both ways alike, with both sources', () => {
    const there = diffRulebooks(rulebook('isu/2018-19'), rulebook('isu/2019-20'));
    const back = diffRulebooks(rulebook('isu/2019-20'), rulebook('isu/2018-19'));
    expect(new Set(there.map((one) => one.path)).size).toBe(there.length);
    expect(back.map((one) => one.path).sort()).toEqual(there.map((one) => one.path).sort());
    const percent = there.find((one) => one.path === 'scale.signs.<');
    expect([percent?.before?.value, percent?.after?.value]).toEqual([75, 80]);
    expect(percent?.after?.citation.source).toContain('May 2020');
  });

  it('tells the reported change of 2026/27: seven jump elements become six, marked provisional', () => {
    const change = diffRulebooks(rulebook('isu/2025-26'), rulebook('isu/2026-27')).find(
      (one) => one.path === 'content.senior.free.jumpElements.max',
    );
    expect([change?.before?.value, change?.after?.value]).toEqual([7, 6]);
    expect(change?.after?.citation).toMatchObject({ status: 'published', provisional: true });
  });
});

/** Without branches that hold nothing: a difference of leaves cannot tell of them. */
const pruned = (value: unknown): unknown => JSON.parse(JSON.stringify(value)) as unknown;
