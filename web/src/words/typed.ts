/** What a person typed as a number, with a comma or a point; null where it is none. */
export function typed(text: string): number | null {
  const plain = text.trim().replace(/^[−–]/, '-').replace(',', '.');
  return /^-?\d+(\.\d*)?$/.test(plain) ? Number(plain) : null;
}
