import { useEffect, useState } from 'react';

/** A value once it has not changed for a while: for what need not follow a drag. */
export function useCalm<T>(value: T, wait = 250): T {
  const [calm, setCalm] = useState(value);
  useEffect(() => {
    const later = setTimeout(() => setCalm(value), wait);
    return () => clearTimeout(later);
  }, [value, wait]);
  return calm;
}
