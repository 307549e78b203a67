/** `elements[2].marks` → "the marks of element 3"; places of one sheet as words, each once. */
export const placesOf = (paths: readonly string[]): string => [...new Set(paths.map(placeOf))].join(', ');

const NAMES: Readonly<Record<string, string>> = {
  goe: 'grade of execution',
  base: 'base value',
  feedback: 'letters',
  half: 'second-half mark',
  tes: 'the element score',
  pcs: 'the component score',
  total: 'the total',
  deductions: 'the deductions',
  bonus: 'the bonus',
  elements: 'the elements',
  components: 'the components',
};

function placeOf(path: string): string {
  const match = /^(element|component)s\[(\d+)\](?:\.(\w+))?/.exec(path);
  if (match === null) return NAMES[path] ?? path.replace(/^(\w+)\b.*$/, (_, head: string) => NAMES[head] ?? head);
  const [, what = '', index = '', field] = match;
  const whole = `${what} ${Number(index) + 1}`;
  return field === undefined ? whole : `the ${NAMES[field] ?? field} of ${whole}`;
}
