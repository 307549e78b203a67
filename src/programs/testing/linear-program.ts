import { parseCode, type Element } from '../../notation/index.ts';
import type { Rulebook } from '../../rulebook/index.ts';
import { elementValue, goeOfGrade, type Inventory, type LayoutElement } from '../../scoring/index.ts';

/*
 * The best senior free skate as a mixed-integer linear program in the LP text form, for a general solver.
 * Rules as in facts: seven jump elements, one Axel type, units 3 + 2 + 2, repeats, three spins of
 * different kind, one step and one choreographic sequence, factor 1.1 on three jump elements.
 */

const read = (code: string): Element => {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(code);
  return parsed.value.element;
};

/** Expected hundredths of an entry. */
function worth(entry: LayoutElement, values: Rulebook, half: boolean): number {
  let sum = 0;
  for (const outcome of entry.outcomes ?? []) {
    const value = elementValue(values, read(outcome.code), { half });
    for (const { grade, p } of outcome.grades) {
      const goe = value.row === null ? 0 : (goeOfGrade(value.row, grade) ?? 0);
      sum += outcome.p * p * ((value.base ?? 0) + goe);
    }
  }
  return sum;
}

type Terms = readonly (readonly [number, string])[];

const linear = (terms: Terms): string =>
  terms
    .filter(([factor]) => factor !== 0)
    .map(([factor, name]) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`)
    .join(' ');

const KINDS: readonly (readonly [string, RegExp])[] = [
  ['combination', /Co/],
  ['flying', /^F/],
  ['one', /^F?C?[ULCS]Sp/],
];

/** The program as LP text; variable `x3` takes entry 3, `b3` gives it a bonus place. */
export function linearProgram(inventory: Inventory, values: Rulebook): string {
  const entries = inventory.elements.map((entry, i) => ({ entry, i, element: read(entry.code) }));
  const jumps = entries.flatMap(({ entry, i, element }) =>
    element.kind === 'jump' ? [{ entry, i, jumps: element.jumps }] : [],
  );
  const rows: string[] = [];
  const binary = entries.map(({ i }) => `x${i}`);
  const bonus = jumps.map(({ i }) => `b${i}`);
  const add = (terms: Terms, sign: '<=' | '>=' | '=', limit: number): void => {
    const text = linear(terms);
    if (text !== '') rows.push(`r${rows.length}: ${text} ${sign} ${limit}`);
  };
  const gain = (entry: LayoutElement): number => worth(entry, values, true) - worth(entry, values, false);
  const objective: Terms = [
    ...entries.map(({ entry, i }) => [worth(entry, values, false), `x${i}`] as const),
    ...jumps.map(({ entry, i }) => [gain(entry), `b${i}`] as const),
  ];
  add(
    jumps.map(({ i }) => [1, `x${i}`]),
    '<=',
    7,
  );
  add(
    jumps.map(({ i, jumps: list }) => [list.some((j) => j.name === 'A') ? 1 : 0, `x${i}`]),
    '>=',
    1,
  );
  add(
    jumps.map(({ i, jumps: list }) => [list.length > 1 ? 1 : 0, `x${i}`]),
    '<=',
    3,
  );
  add(
    jumps.map(({ i, jumps: list }) => [list.length > 2 ? 1 : 0, `x${i}`]),
    '<=',
    1,
  );
  add(
    jumps.map(({ i }) => [1, `b${i}`]),
    '<=',
    3,
  );
  for (const { i } of jumps)
    add(
      [
        [1, `b${i}`],
        [-1, `x${i}`],
      ],
      '<=',
      0,
    );
  const kinds = [
    ...new Set(
      jumps.flatMap(({ jumps: list }) =>
        list.filter((j) => j.name !== 'Eu' && j.turns >= 2).map((j) => `${j.turns}${j.name}`),
      ),
    ),
  ];
  const times = (kind: string, index: number): number =>
    jumps[index]?.jumps.filter((j) => `${j.turns}${j.name}` === kind).length ?? 0;
  const high = kinds.filter((kind) => Number(kind[0]) >= 3);
  for (const kind of kinds) {
    const all: Terms = jumps.map(({ i }, index) => [times(kind, index), `x${i}`]);
    add(all, '<=', 2);
    if (!high.includes(kind)) continue;
    binary.push(`y${kind}`);
    add([...all, [-1, `y${kind}`]], '<=', 1);
    add(
      jumps.map(({ i, jumps: list }, index) => [list.length === 1 ? times(kind, index) : 0, `x${i}`]),
      '<=',
      1,
    );
  }
  add(
    high.map((kind) => [1, `y${kind}`]),
    '<=',
    2,
  );
  add(
    high.map((kind) => [Number(kind[0]) >= 4 ? 1 : 0, `y${kind}`]),
    '<=',
    1,
  );
  const spins = entries.filter(({ element }) => element.kind === 'spin');
  for (const { entry, i } of spins) {
    const fitting = KINDS.filter(([, pattern]) => pattern.test(entry.code));
    add([...fitting.map(([kind]) => [1, `k${i}${kind}`] as const), [-1, `x${i}`]], '=', 0);
    for (const [kind] of fitting) binary.push(`k${i}${kind}`);
  }
  for (const [kind, pattern] of KINDS)
    add(
      spins.filter(({ entry }) => pattern.test(entry.code)).map(({ i }) => [1, `k${i}${kind}`]),
      '<=',
      1,
    );
  const characters = new Set(spins.map(({ entry }) => entry.code.slice(0, -1)));
  for (const one of characters)
    add(
      spins.filter(({ entry }) => entry.code.slice(0, -1) === one).map(({ i }) => [1, `x${i}`]),
      '<=',
      1,
    );
  for (const kind of ['steps', 'choreo'])
    add(
      entries.filter(({ element }) => element.kind === kind).map(({ i }) => [1, `x${i}`]),
      '<=',
      1,
    );
  return `Maximize\n obj: ${linear(objective)}\nSubject To\n ${rows.join('\n ')}\nBinary\n ${[...binary, ...bonus].join(' ')}\nEnd\n`;
}
