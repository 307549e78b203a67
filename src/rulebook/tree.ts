/** Plain documents as trees: paths, reading by path, deep merge. Knows nothing of rules. */

export type Path = readonly (string | number)[];
export type Tree = Readonly<Record<string, unknown>>;

export const isTree = (value: unknown): value is Tree =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** `content.senior women.free.slots[0].turns` -> its parts. Keys hold no dots and no brackets. */
export function parsePath(text: string): Path {
  if (text === '') return [];
  return text
    .replace(/\[(\d+)\]/g, '.$1')
    .split('.')
    .filter((part) => part !== '')
    .map((part) => (/^\d+$/.test(part) ? Number(part) : part));
}

export const formatPath = (path: Path): string =>
  path.map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${part}`)).join('');

/** The value at a path; `found: false` where a key is missing on the way (a null value is found). */
export function lookUp(root: unknown, path: Path): { readonly found: boolean; readonly value: unknown } {
  let value = root;
  for (const part of path) {
    if (Array.isArray(value) && typeof part === 'number' && part < value.length) value = value[part];
    else if (isTree(value) && Object.hasOwn(value, part)) value = value[String(part)];
    else return { found: false, value: undefined };
  }
  return { found: true, value };
}

/**
 * Later over earlier: objects are merged key by key, everything else (numbers, lists, null) replaces.
 * null is a value like any other: it says that the later document does not know or does not have it.
 */
export function merge(earlier: unknown, later: unknown): unknown {
  if (!isTree(earlier) || !isTree(later)) return later;
  const result: Record<string, unknown> = { ...earlier };
  for (const [key, value] of Object.entries(later)) {
    result[key] = Object.hasOwn(earlier, key) ? merge(earlier[key], value) : value;
  }
  return result;
}

/** Every leaf (anything but a non-empty object or list) with its path, in document order. */
export function* leaves(value: unknown, path: Path = []): Generator<{ path: Path; value: unknown }> {
  if (Array.isArray(value) && value.length > 0) {
    for (const [i, item] of value.entries()) yield* leaves(item, [...path, i]);
  } else if (isTree(value) && Object.keys(value).length > 0) {
    for (const [key, item] of Object.entries(value)) yield* leaves(item, [...path, key]);
  } else yield { path, value };
}
