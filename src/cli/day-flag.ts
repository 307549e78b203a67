import { isDay } from '../notation/index.ts';
import { UsageError } from './io.ts';

/**
 * Reads a day given as a flag. Days are compared as they are written, and what is held back until a day must not
 * be let go by one that is none.
 * @throws {UsageError} for what is no day of the calendar in the form 2026-12-05
 */
export const dayFlag =
  (flag: string) =>
  (given: string): string => {
    if (!isDay(given)) throw new UsageError(`${flag} ${given} is no day: write it as 2026-12-05.`);
    return given;
  };
