import { useEffect, useRef } from 'react';
import { say } from './said.ts';

/** What waits to be written; an undo writes it first, so that it takes back what the coach saw last. */
const waiting = new Set<() => Promise<void>>();

/** Writes at once everything that waits. */
export const flushEdits = async (): Promise<void> => {
  await Promise.all([...waiting].map((flush) => flush()));
};

/**
 * Writes a moment after the last edit, and at once when the page is left, so that nothing is lost.
 *
 * @param edits a number that grows with every edit; 0: nothing to write yet.
 * @param save  writes what is on the page when it is called.
 * @param wait  milliseconds of quiet before it is written.
 */
export function useAutosave(edits: number, save: () => Promise<unknown>, wait = 600): void {
  const newest = useRef(save);
  const written = useRef(0);
  useEffect(() => {
    newest.current = save;
  });
  useEffect(() => {
    if (edits === written.current) return undefined;
    const flush = async () => {
      if (edits === written.current) return;
      written.current = edits;
      waiting.delete(flush);
      await newest.current().catch((error: unknown) => {
        say(`Not kept: ${error instanceof Error ? error.message : String(error)}`);
      });
    };
    waiting.add(flush);
    const later = setTimeout(() => void flush(), wait);
    return () => {
      clearTimeout(later);
      waiting.delete(flush);
    };
  }, [edits, wait]);
  useLeaving(edits, written, newest);
}

/** Writes what still waits when the page is left. */
function useLeaving(
  edits: number,
  written: React.RefObject<number>,
  newest: React.RefObject<() => Promise<unknown>>,
): void {
  const made = useRef(edits);
  useEffect(() => {
    made.current = edits;
  });
  useEffect(
    () => () => {
      if (made.current === written.current) return;
      written.current = made.current;
      void newest.current().catch(() => say('The last edit could not be kept.'));
    },
    [written, newest],
  );
}
