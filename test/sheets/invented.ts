import { parseCode } from '../../src/notation/index.ts';
import { chooseRules, type ChosenRules, shippedLibrary } from '../../src/rulebook/index.ts';
import { componentPoints, elementValue, fallPoints, goeOfMarks, panelMean } from '../../src/scoring/index.ts';

import { callsOf } from './printed.ts';
import { inventedName, type SheetElement, type SheetProtocol } from './protocols.ts';
import { type Random, randomFrom } from './random.ts';

/** What an invented panel and event print. */
export interface InventedEvent {
  readonly season: string;
  readonly category: 'advanced novice women' | 'advanced novice men' | 'junior women' | 'senior men';
  readonly segment: 'short' | 'free';
  readonly judges: number;
  /** Letters beside steps and V. */
  readonly letters: boolean;
}

const PROGRAMS: Readonly<Record<InventedEvent['segment'], readonly (readonly string[])[]>> = {
  free: [
    ['2A+2T', '2Lz!', '2F+1Eu+2S', 'CCoSp3V', '2Lo', 'StSq3', '2A<', '2Lz+2T', 'LSp3'],
    ['3S<', '2A', '2Lz+2T', 'FCSp2', '2F', 'StSq2', '2Lo+2Lo', '3S<<+COMBO', 'CCoSp3'],
    ['3T+2T', '2A', '2Lze', 'CSSp3', '2Fq', 'StSqB', '2Lo<', '1A', 'FCCoSp2V'],
  ],
  short: [
    ['2A', '2Lz+2T', '3S<', 'LSp3', 'CCoSp2V', 'StSq2'],
    ['2Aq', '2F!+2Lo', '2Lz', 'CSp3', 'CCoSp3', 'StSq3'],
    ['2A<', '2Lz+COMBO', '2Lo', 'LSp2', 'CCoSp1', 'StSqB'],
  ],
};

/** Invented protocols of one event, reproducible by seed; every printed figure follows from the marks. */
export function inventedProtocols(event: InventedEvent, count: number, seed = 1): SheetProtocol[] {
  const random = randomFrom(seed);
  const rules = chooseRules(shippedLibrary(), { ...event, body: 'isu' });
  if (!rules.ok) throw new Error(rules.error.found);
  return Array.from({ length: count }, (_, i) => inventOne(event, rules.value, i, random));
}

function inventOne(event: InventedEvent, rules: ChosenRules, i: number, random: Random): SheetProtocol {
  const programs = PROGRAMS[event.segment];
  const codes = programs[i % programs.length] ?? [];
  const ability = random.normal();
  const elements = codes.map((code, no) => inventElement(code, no + 1, event, rules, ability, random));
  const components = inventComponents(event, rules, ability, random);
  const falls = random.below(4) === 0 ? 1 + random.below(2) : 0;
  const fallen = fallPoints(rules.deductions.deductions(rules.category, rules.segment), falls) ?? 0;
  const tes = sum(elements.map((element) => element.score));
  const pcs = sum(
    components.map((component) => points(componentPoints(cents(component.score), cents(component.factor)))),
  );
  const deductions = falls === 0 ? [] : [{ reason: 'fall', count: falls, points: fallen / 100 }];
  return {
    id: `${event.category}-${event.segment}-${i}`,
    season: event.season,
    competition: 'invented',
    category: event.category,
    segment: event.segment,
    skater: inventedName(String(i * 7 + event.judges)),
    rank: i + 1,
    startNumber: count(i),
    elements,
    components,
    deductions: falls === 0 ? 0 : deductions,
    tes,
    pcs,
    total: sum([tes, pcs, fallen / 100]),
  };
}

const count = (i: number): number => i + 1;
const cents = (value: number): number => Math.round(value * 100);
const points = (value: number | null): number => (value ?? 0) / 100;
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + cents(value), 0) / 100;

function inventElement(
  code: string,
  no: number,
  event: InventedEvent,
  rules: ChosenRules,
  ability: number,
  random: Random,
): SheetElement {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(parsed.error.found);
  const half =
    event.segment === 'free' && no >= 7 && parsed.value.element.kind === 'jump' && event.category.startsWith('j');
  const { base, row } = elementValue(rules.values, parsed.value.element, { half });
  const level = ability + random.normal() * 0.8 - (/[<e]/.test(code) ? 2 : 0);
  const marks = Array.from({ length: event.judges }, () => random.whole(level + random.normal() * 0.7, -5, 5));
  const goe = row === null ? 0 : (goeOfMarks(row, marks, rules.values.values.panel) ?? 0);
  const feedback = event.letters ? lettersFor(code, random) : null;
  return {
    no,
    code,
    info: callsOf(code)[0] ?? '',
    half,
    base: points(base),
    goe: goe / 100,
    marks,
    score: ((base ?? 0) + goe) / 100,
    ...(feedback === null ? {} : { feedback }),
  };
}

/** Letters that fit the printed level: so many of three met, or the position that a V misses. */
function lettersFor(code: string, random: Random): string | null {
  if (code.endsWith('V')) return random.pick(['NC', 'NS', 'NU']);
  const level = /^StSq([B1-4])/.exec(code)?.[1];
  if (level === undefined) return null;
  if (level === 'B') return random.pick(['NNN', 'NYN']);
  return { 1: 'NNN', 2: random.pick(['YNN', 'NYN']), 3: random.pick(['YYN', 'YNY']), 4: 'YYY' }[Number(level)] ?? null;
}

function inventComponents(
  event: InventedEvent,
  rules: ChosenRules,
  ability: number,
  random: Random,
): SheetProtocol['components'] {
  const { list, factor } = rules.values.components(rules.category, rules.segment);
  const printed = factor ?? (event.segment === 'free' ? 213 : 107);
  const { panel } = rules.values.values;
  return list.map(({ name }) => {
    const marks = Array.from(
      { length: event.judges },
      () => random.whole((4 + ability + random.normal() * 0.4) * 4, 1, 40) * 25,
    );
    return {
      name,
      factor: printed / 100,
      marks: marks.map((mark) => mark / 100),
      score: points(panelMean(marks, panel)),
    };
  });
}
