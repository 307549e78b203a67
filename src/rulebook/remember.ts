/** Remembers the answers of a function of one argument; rulebooks never change. */
export function remember<K, V>(compute: (key: K) => V): (key: K) => V {
  const known = new Map<K, { readonly value: V }>();
  return (key) => {
    const before = known.get(key);
    if (before) return before.value;
    const value = compute(key);
    known.set(key, { value });
    return value;
  };
}

/** Computes a value when it is asked for first. */
export function lazy<V>(compute: () => V): () => V {
  let known: { readonly value: V } | null = null;
  return () => (known ??= { value: compute() }).value;
}
