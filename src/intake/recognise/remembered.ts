/** Words repeat from sheet to sheet; the memory is bounded because texts may be hostile. */
const MAX_KNOWN = 5000;
const LONGEST = 200;

/** The same answers; what was found out about a short text is found out once. */
export function remembered<T>(find: (text: string) => T): (text: string) => T {
  const known = new Map<string, { readonly found: T }>();
  return (text) => {
    if (text.length > LONGEST) return find(text);
    const before = known.get(text);
    if (before !== undefined) return before.found;
    const found = find(text);
    if (known.size >= MAX_KNOWN) known.clear();
    known.set(text, { found });
    return found;
  };
}
