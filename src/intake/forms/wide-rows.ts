/**
 * A table with one row per skater, whose columns repeat for every element (`Element 1`, `BV 1`, `E2 J3`),
 * turned into one with a row per element.
 */

/** A column of one element: which element, and the heading that it would have in a row of its own. */
interface Part {
  readonly no: number;
  readonly heading: string;
}

const CODE = 'code';
const ELEMENT = /^(?:e|el|elem|element|executed|prvek|élément)$/iu;
/** `E1`, `Element 1`: alone the code, before or behind another heading its element. */
const ELEMENT_AND_REST = /^(?:e|el|elem|element)[ _.-]*(\d{1,2})[ _.:-]+(\S.*)$/iu;
const REST_AND_ELEMENT = /^(\S.*?)[ _.:-]+(?:e|el|elem|element)[ _.-]*(\d{1,2})$/iu;
const HEADING_AND_NUMBER = /^([^\d]+?)[ _.-]*(\d{1,2})$/u;
/** `J1`, `Judge 2` without an element is a column of a judge, not of an element. */
const JUDGE = /^(?:j|judge|juge|p|pr|richter|mark|tuomari)$/iu;
const MOST_ELEMENTS = 20;
const FEWEST_ELEMENTS = 3;

function partOf(heading: string): Part | null {
  const text = heading.trim().slice(0, 60);
  const inner = ELEMENT_AND_REST.exec(text);
  if (inner !== null) return part(inner[1], inner[2]);
  const outer = REST_AND_ELEMENT.exec(text);
  if (outer !== null) return part(outer[2], outer[1]);
  const plain = HEADING_AND_NUMBER.exec(text);
  const name = plain?.[1]?.trim() ?? '';
  if (plain === null || JUDGE.test(name)) return null;
  return part(plain[2], ELEMENT.test(name) ? CODE : name);
}

function part(number = '', heading = ''): Part | null {
  const no = Number(number);
  return no < 1 || no > MOST_ELEMENTS ? null : { no, heading: ELEMENT.test(heading) ? CODE : heading };
}

/**
 * The same table with one row per skater and element, its heading first; null where the heading does not
 * repeat a column of codes for three elements or more. Elements that a skater has not are left out.
 */
export function longRows(heading: readonly string[], rows: readonly (readonly string[])[]): string[][] | null {
  const parts = heading.map(partOf);
  const codes = parts.filter((one) => one?.heading === CODE);
  const elements = [...new Set(codes.map((one) => one?.no ?? 0))].sort((a, b) => a - b);
  if (elements.length < FEWEST_ELEMENTS || codes.length !== elements.length) return null;
  const names = [...new Set(parts.flatMap((one) => (one === null ? [] : [one.heading])))];
  const common = heading.flatMap((_, i) => (parts[i] === null ? [i] : []));
  const places = elements.map((no) => ({
    no,
    own: names.map((name) => parts.findIndex((one) => one?.no === no && one.heading === name)),
  }));
  const code = names.indexOf(CODE);
  const long = [[...common.map((i) => heading[i] ?? ''), 'no', ...names]];
  for (const row of rows) {
    const shared = common.map((i) => row[i] ?? '');
    for (const { no, own } of places) {
      const cells = own.map((i) => row[i] ?? '');
      if (cells[code]?.trim() !== '') long.push([...shared, String(no), ...cells]);
    }
  }
  return long;
}
