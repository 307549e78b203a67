/** What was done last, told at the foot until it is undone or the next edit comes. */
let last: string | null = null;
const listeners = new Set<() => void>();

export const lastSaid = (): string | null => last;

export function say(sentence: string | null): void {
  last = sentence;
  for (const listener of listeners) listener();
}

export function onSaid(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
