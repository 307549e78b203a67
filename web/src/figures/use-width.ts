import { useEffect, useRef, useState } from 'react';

/** Real width of an element in pixels: figures are laid out for it, never scaled. */
export function useWidth<T extends HTMLElement>(fallback: number) {
  const ref = useRef<T>(null);
  const [width, setWidth] = useState(fallback);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined && entry.contentRect.width > 0) setWidth(Math.floor(entry.contentRect.width));
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return { ref, width };
}
