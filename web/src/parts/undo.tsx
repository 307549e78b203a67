import { useEffect, useSyncExternalStore } from 'react';
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

/** In a text field the keys belong to the field's own undo. */
const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('input:not([type="checkbox"], [type="radio"]), textarea') !== null;

const isUndo = (event: KeyboardEvent): boolean =>
  (event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey && event.key.toLowerCase() === 'z';

/** The line at the foot: the last edit, and the way back. Ctrl+Z or Cmd+Z does the same outside text fields. */
export function UndoLine() {
  const sentence = useSyncExternalStore(subscribe, () => last);
  const { mutate } = useUndo();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!isUndo(event) || isTyping(event.target)) return;
      event.preventDefault();
      mutate(undefined, {
        onSuccess: () => change('Taken back.'),
        onError: (error) => change(error.message),
      });
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [mutate]);
  if (sentence === null) return null;
  return (
    <div className="undo" role="status">
      <span>{sentence}</span>
      {sentence !== 'Taken back.' && (
        <button type="button" className="btn" onClick={() => mutate(undefined, { onSettled: () => change(null) })}>
          {words.undo}
        </button>
      )}
    </div>
  );
}
