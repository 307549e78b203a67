import { parseCode, type Category, type Segment } from '../../notation/index.ts';
import type { Rulebook } from '../../rulebook/index.ts';
import { componentPoints, elementValue, fallPoints, goeOfMarks, panelMean } from '../../scoring/index.ts';
import type { PrintedElement, PrintedProtocol } from './sheet-forms.ts';

/** A small generator of numbers with a seed, so that a failing sheet can be made again. */
export function dice(seed: number): (sides: number) => number {
  let state = seed >>> 0;
  return (sides) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * sides);
  };
}

const CATEGORIES: readonly Category[] = [
  'advanced novice women',
  'junior women',
  'junior men',
  'senior women',
  'senior men',
];
const JUMPS = [
  '2A',
  '3T',
  '3S<',
  '3Lo',
  '3F!',
  '3Lze',
  '3Lzq',
  '2Lz',
  '3Fe<',
  '2A+2T',
  '3T+2T<',
  '3Lz<+2T',
  '2A+1Eu+2S',
  '3S+2A+SEQ',
  '3T+REP',
  '2F+2Lo*',
  '1A',
  '3Lz<<',
  '3Lz+3T',
  '2A+COMBO',
];
const SPINS = ['CCoSp3V', 'CCoSp4', 'FSSp3', 'LSp2', 'CSSp4', 'FCSp2V', 'CCSpB', 'CCoSp'];
const POSITIONS = ['NC', 'NS', 'NU'];
const NAMES = ['Composition', 'Presentation', 'Skating Skills'];

/** An invented sheet of a season with three components, its figures made by the rules. */
export function inventedSheet(rulebook: Rulebook, seed: number): PrintedProtocol {
  const roll = dice(seed);
  const pick = <T>(list: readonly T[]): T => {
    const one = list[roll(list.length)];
    if (one === undefined) throw new Error('nothing to pick from');
    return one;
  };
  const category = pick(CATEGORIES);
  const segment: Segment = pick(['short', 'free']);
  const judges = 3 + roll(7);
  const codes = [
    ...Array.from({ length: segment === 'short' ? 3 : 7 }, () => pick(JUMPS)),
    ...Array.from({ length: 3 }, () => pick(SPINS)),
    `StSq${pick(['B', '1', '2', '3', '4'])}`,
    ...(segment === 'free' ? ['ChSq1'] : []),
  ];
  let falls = 0;
  const elements = codes.map((code, i): PrintedElement => {
    const half = /\d[TSLFA]/.test(code) && roll(4) === 0;
    const fall = code.startsWith('3Lz<<');
    if (fall) falls++;
    return elementOf(rulebook, i + 1, code, half, judges, roll, pick);
  });
  const factor = rulebook.components(category, segment).factor ?? 133;
  const components = NAMES.map((name) => {
    const level = 16 + roll(16);
    const marks = Array.from({ length: judges }, () => 25 * (level + roll(5)));
    return {
      name,
      factor: factor / 100,
      marks: marks.map((mark) => mark / 100),
      score: (panelMean(marks, rulebook.values.panel) ?? 0) / 100,
    };
  });
  const tes = elements.reduce((sum, one) => sum + Math.round(one.score * 100), 0);
  const pcs = components.reduce((sum, one) => sum + (componentPoints(Math.round(one.score * 100), factor) ?? 0), 0);
  const lost = fallPoints(rulebook.deductions(category, segment), falls) ?? 0;
  return {
    id: `invented-${seed}`,
    season: rulebook.season,
    competition: 'invented',
    category,
    segment,
    skater: `${pick(['Ilva', 'Ronja', 'Mirre', 'Odalie'])} ${pick(['Torvan', 'Quellin', 'Marivoe', 'Halcott'])}`,
    rank: 1 + roll(30),
    startNumber: 1 + roll(30),
    elements,
    components,
    deductions: falls === 0 ? 0 : [{ reason: 'fall', count: falls, points: lost / 100 }],
    tes: tes / 100,
    pcs: pcs / 100,
    total: (tes + pcs + lost) / 100,
  };
}

function elementOf(
  rulebook: Rulebook,
  no: number,
  code: string,
  half: boolean,
  judges: number,
  roll: (sides: number) => number,
  pick: <T>(list: readonly T[]) => T,
): PrintedElement {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(code);
  const value = elementValue(rulebook, parsed.value.element, { half });
  const middle = roll(7) - 3;
  const marks = Array.from({ length: judges }, () =>
    value.hasValue ? Math.max(-5, Math.min(5, middle + roll(3) - 1)) : null,
  );
  const goe = value.row === null ? 0 : (goeOfMarks(value.row, marks, rulebook.values.panel) ?? 0);
  const base = value.base ?? 0;
  const letters = code.startsWith('StSq')
    ? pick(['YYN', 'YNN', 'NNN', 'YYY'])
    : /^CCoSp\dV/.test(code)
      ? pick(POSITIONS)
      : undefined;
  const call = /(<<|<|q|!|e)/.exec(code.replace(/Sp|Sq/g, ''))?.[0] ?? '';
  return {
    no,
    code,
    info: call,
    ...(letters === undefined ? {} : { feedback: letters }),
    half,
    base: base / 100,
    goe: goe / 100,
    marks,
    score: (base + goe) / 100,
  };
}
