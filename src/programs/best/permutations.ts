/** Every order of a list, lazily; the given order first. */
export function* permutations<T>(list: readonly T[]): Generator<readonly T[]> {
  if (list.length <= 1) {
    yield list;
    return;
  }
  for (const [i, first] of list.entries()) {
    for (const rest of permutations([...list.slice(0, i), ...list.slice(i + 1)])) yield [first, ...rest];
  }
}
