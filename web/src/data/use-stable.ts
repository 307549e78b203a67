import { useCallback, useLayoutEffect, useRef } from 'react';

/** The same function at every drawing, which does what the newest one does: what is handed it need not be drawn anew. */
export function useStable<A extends unknown[], R>(newest: (...args: A) => R): (...args: A) => R {
  const latest = useRef(newest);
  useLayoutEffect(() => {
    latest.current = newest;
  });
  return useCallback((...args: A) => latest.current(...args), []);
}
