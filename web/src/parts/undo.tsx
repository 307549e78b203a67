import { useSyncExternalStore } from 'react';
import { useUndo } from '../data/use.ts';
import { words } from '../words/index.ts';

/** What was done last, until it is undone or the next edit comes. */
let last: string | null = null;
const listeners = new Set<() => void>();
const change = (value: string | null) => {
  last = value;
  for (const listener of listeners) listener();
};
const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** Tells the line at the foot what an edit did, as a sentence; it then offers to take it back. */
export const didEdit = (sentence: string): void => change(sentence);

/** The line at the foot: the last edit, and the way back. Ctrl+Z does the same outside text fields. */
export function UndoLine() {
  const sentence = useSyncExternalStore(subscribe, () => last);
  const undo = useUndo();
  if (sentence === null) return null;
  return (
    <div className="undo" role="status">
      <span>{sentence}</span>
      <button type="button" className="btn" onClick={() => undo.mutate(undefined, { onSettled: () => change(null) })}>
        {words.undo}
      </button>
    </div>
  );
}
