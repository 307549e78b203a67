/** A number as people say it; `null` is not a number here. */
export const number = (n: number | null): string =>
  n === null
    ? 'an unknown number'
    : (['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'][n] ?? String(n));

/** `one spin`, `two spins`. */
export const many = (n: number | null, one: string, more: string): string => `${number(n)} ${n === 1 ? one : more}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
