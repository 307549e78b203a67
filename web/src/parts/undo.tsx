import { useEffect, useSyncExternalStore } from 'react';
import { flushEdits } from '../data/autosave.ts';
import { lastSaid, onSaid, say } from '../data/said.ts';
import { useUndo } from '../data/use.ts';
import { words } from '../words/index.ts';

/** Tells the line at the foot what an edit did, as a sentence; it then offers to take it back. */
export const didEdit = (sentence: string): void => say(sentence);

const TAKEN_BACK = 'Taken back.';

/** How often something was taken back: pages are drawn anew after it, from what the store then holds. */
let undone = 0;
const listeners = new Set<() => void>();
const onUndone = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};
export const useUndone = (): number => useSyncExternalStore(onUndone, () => undone);

function useTakeBack() {
  const { mutateAsync } = useUndo();
  return async () => {
    try {
      await flushEdits();
      await mutateAsync();
      undone += 1;
      for (const listener of listeners) listener();
      say(TAKEN_BACK);
    } catch (error) {
      say(error instanceof Error ? error.message : 'It could not be taken back.');
    }
  };
}

/** In a text field the keys belong to the field's own undo. */
const isTyping = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && target.closest('input:not([type="checkbox"], [type="radio"]), textarea') !== null;

const isUndo = (event: KeyboardEvent): boolean =>
  (event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey && event.key.toLowerCase() === 'z';

/** The line at the foot: the last edit, and the way back. Ctrl+Z or Cmd+Z does the same outside text fields. */
export function UndoLine() {
  const sentence = useSyncExternalStore(onSaid, lastSaid);
  const takeBack = useTakeBack();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!isUndo(event) || isTyping(event.target)) return;
      event.preventDefault();
      void takeBack();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  });
  if (sentence === null) return null;
  return (
    <div className="undo" role="status">
      <span>{sentence}</span>
      {sentence !== TAKEN_BACK && (
        <button type="button" className="btn" onClick={() => void takeBack()}>
          {words.undo}
        </button>
      )}
    </div>
  );
}
