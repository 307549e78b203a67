/** Codes of a protocol's form with their calls, in skating order, a space between; what is no text is left out. */
export function briefOf(form: unknown): string {
  const elements = typeof form === 'object' && form !== null && 'elements' in form ? form.elements : null;
  if (!Array.isArray(elements)) return '';
  return (elements as { code?: unknown; info?: unknown }[])
    .map((e) => `${textOf(e.code)}${textOf(e.info)}`.replaceAll(/\s/g, ''))
    .filter((code) => code !== '')
    .join(' ');
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');
