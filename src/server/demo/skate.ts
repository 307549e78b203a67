import { formatElement, parseCode, type Element, type Jump, type Level, type Segment } from '../../notation/index.ts';
import type { ChosenRules, ValueRow } from '../../rulebook/index.ts';
import {
  componentPoints,
  elementValue,
  fallPoints,
  goeOfMarks,
  panelMean,
  segmentScore,
  type Protocol,
  type ProtocolComponent,
  type ProtocolElement,
} from '../../scoring/index.ts';
import { DEMO_SEASON, type DemoEvent, type DemoSkater } from './cast.ts';
import { chanceFrom, seedOf, type Chance } from './chance.ts';

/** One program skated at one event: what the panel would have printed, exact to the hundredth. */
export function skate(who: DemoSkater, event: DemoEvent, segment: Segment, rules: ChosenRules): Protocol {
  const chance = chanceFrom(seedOf(`${who.id} ${event.id} ${segment}`));
  const form = chance.normal() * 0.3;
  const planned = who.programs[segment] ?? [];
  const seconds = rules.content.content(rules.category, segment)?.duration.seconds ?? 180;
  const bonusLast = rules.content.content(rules.category, segment)?.bonusLast ?? null;
  const late = lateJumps(planned, seconds, bonusLast === 'all' ? 99 : (bonusLast ?? 0));
  const elements = planned.map(([code, start], i) => {
    const called = call(code, who, event, rules, chance);
    const half = late.has(i);
    return {
      ...printed(called, half, who, event, form, rules, chance),
      no: i + 1,
      half,
      start: start + Math.round(chance.normal()),
    };
  });
  const falls = elements.filter((e) => e.info.includes('F')).length;
  const deductions = fallPoints(rules.deductions.deductions(rules.category, segment), falls) ?? falls * -50;
  const components = componentsOf(who, event, segment, form, falls, rules, chance);
  const sums = segmentScore({
    elements: elements.map((e) => e.score),
    components: components.map((c) => componentPoints(c.score, c.factor)),
    deductions,
    bonus: 0,
  });
  return {
    id: `${event.id}-${who.id}-${segment}`,
    body: who.body,
    season: DEMO_SEASON,
    rulebook: null,
    competition: event.name,
    date: event.date,
    order: null,
    category: who.category,
    segment,
    skater: who.name,
    rank: null,
    startNumber: 1 + Math.floor(chance.next() * 14),
    elements,
    components,
    deductions: {
      total: deductions,
      items: falls === 0 ? null : [{ reason: 'fall', count: falls, points: deductions }],
    },
    bonus: null,
    ...sums,
    warnings: [],
  };
}

function lateJumps(planned: readonly (readonly [string, number])[], seconds: number, last: number): Set<number> {
  const jumps = planned.flatMap(([code, start], i) => (/^\d/.test(code) ? [{ i, start }] : []));
  return new Set((last === 0 ? [] : jumps.slice(-last)).filter((j) => j.start >= seconds / 2).map((j) => j.i));
}

interface Called {
  readonly element: Element;
  readonly info: string;
  readonly feedback: string | null;
  /** Grades that what happened takes off. */
  readonly off: number;
}

/** What happened to a planned element, and what the panel called. */
function call(code: string, who: DemoSkater, event: DemoEvent, rules: ChosenRules, chance: Chance): Called {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(`The demo plans "${code}", which is no code.`);
  const { element } = parsed.value;
  switch (element.kind) {
    case 'jump':
      return callJump(element, who, event, chance);
    case 'spin':
      return callSpin(element, chance);
    case 'steps':
      return callSteps(element, rules, chance);
    case 'choreo':
      return { element, info: '', feedback: null, off: 0 };
  }
}

function callJump(element: Element & { kind: 'jump' }, who: DemoSkater, event: DemoEvent, chance: Chance): Called {
  const [first, ...tail] = element.jumps;
  if (first === undefined || chance.is(who.usual.stands)) return { element, info: '', feedback: null, off: 0 };
  const alone = (jump: Jump) => ({ ...element, jumps: [jump] });
  const kind = chance.next();
  if (kind < 0.18 && first.turns > 1) {
    return { element: alone({ ...first, turns: first.turns - 1 }), info: '', feedback: null, off: 1 };
  }
  if (kind < 0.34) return { element: alone({ ...first }), info: 'F', feedback: null, off: 5 };
  if (kind < 0.48 && (first.name === 'Lz' || first.name === 'F')) {
    return { element: { ...element, jumps: [{ ...first, edge: 'e' }, ...tail] }, info: '', feedback: null, off: 2.5 };
  }
  // Without video review the panel sees fewer short rotations.
  if (event.video === 'yes' && first.turns >= 2) {
    const rotation = chance.is(0.5) ? 'q' : '<';
    return { element: { ...element, jumps: [{ ...first, rotation }, ...tail] }, info: '', feedback: null, off: 2.3 };
  }
  return { element, info: '', feedback: null, off: 2 };
}

function callSpin(element: Element & { kind: 'spin' }, chance: Chance): Called {
  const lower = chance.is(0.3) ? down(element.level) : element.level;
  if (element.position === 'Co' && chance.is(0.16)) {
    return { element: { ...element, level: lower, v: 1 }, info: '', feedback: chance.is(0.6) ? 'NU' : null, off: 0.5 };
  }
  return { element: { ...element, level: lower }, info: '', feedback: null, off: lower === element.level ? 0 : 0.3 };
}

const down = (level: Level | null): Level | null =>
  level === null || level === 'B' ? level : level === 1 ? 'B' : level === 2 ? 1 : level === 3 ? 2 : 3;

/** A level with letters that fit it: the turns of its own level or the next, as many Y as it takes. */
function callSteps(element: Element & { kind: 'steps' }, rules: ChosenRules, chance: Chance): Called {
  const level = chance.is(0.45) ? down(element.level) : element.level;
  const letters = rules.levels.steps(rules.category).letters;
  const yes =
    level === 'B' || level === null ? 0 : Math.min(letters.length, Math.max(0, level - 1) + (chance.is(0.4) ? 1 : 0));
  const feedback = letters.length === 0 ? null : letters.map((_, i) => (i < yes ? 'Y' : 'N')).join('');
  return { element: { ...element, level }, info: '', feedback, off: 0 };
}

function printed(
  called: Called,
  half: boolean,
  who: DemoSkater,
  event: DemoEvent,
  form: number,
  rules: ChosenRules,
  chance: Chance,
): Omit<ProtocolElement, 'no' | 'half' | 'start'> {
  const value = elementValue(rules.values, called.element, { half });
  const marks = value.hasValue
    ? gradesOf(called, who, event, form, rules, chance)
    : Array.from({ length: event.judges }, () => null);
  const goe = goeFor(value.row, value.hasValue, marks, rules);
  return {
    code: formatElement(called.element),
    info: called.info,
    feedback: called.feedback,
    base: value.base,
    goe,
    marks,
    score: value.base === null || goe === null ? null : value.base + goe,
  };
}

const goeFor = (row: ValueRow | null, hasValue: boolean, marks: readonly (number | null)[], rules: ChosenRules) =>
  !hasValue ? 0 : row === null ? null : goeOfMarks(row, marks, rules.values.values.panel);

function gradesOf(
  called: Called,
  who: DemoSkater,
  event: DemoEvent,
  form: number,
  rules: ChosenRules,
  chance: Chance,
): number[] {
  const { min, max } = rules.values.values.goe;
  const usual = called.element.kind === 'jump' ? who.usual.grade : who.usual.grade + 0.5;
  const middle = usual + form + chance.normal() * 0.6 - called.off;
  return Array.from({ length: event.judges }, () =>
    Math.min(max, Math.max(min, Math.round(middle + chance.normal() * 0.55))),
  );
}

function componentsOf(
  who: DemoSkater,
  event: DemoEvent,
  segment: Segment,
  form: number,
  falls: number,
  rules: ChosenRules,
  chance: Chance,
): ProtocolComponent[] {
  const { list, factor } = rules.values.components(rules.category, segment);
  // She grows through the season: a quarter of a mark in about three months.
  const grown = (Date.parse(event.date) - Date.parse('2025-09-01')) / 86_400_000 / 90;
  return list.map(({ name }) => {
    const middle = who.usual.component + grown + form * 1.5 - falls * 0.5 + chance.normal() * 0.5;
    const marks = Array.from(
      { length: event.judges },
      () => Math.max(1, Math.round(middle + chance.normal() * 0.9)) * 25,
    );
    return {
      name,
      factor: factor ?? Math.round(who.factors[segment] * 100),
      marks,
      score: panelMean(marks, rules.values.values.panel),
    };
  });
}
