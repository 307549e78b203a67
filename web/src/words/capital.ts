/** A sentence's first letter large. */
export const capital = (text: string): string => text.replace(/^./u, (letter) => letter.toUpperCase());
