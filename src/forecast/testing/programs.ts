import { parseCode, type Category, type Element, type Segment } from '../../notation/index.ts';
import { chooseRules, shippedLibrary, type ChosenRules } from '../../rulebook/index.ts';
import { readProtocol, type Protocol } from '../../scoring/index.ts';
import type { ProgramElement, ProgramModel, SkatedOutcome } from '../exact/program.ts';

/** Shipped rules, for tests. */
export function rulesOf(season: string, category: Category, segment: Segment): ChosenRules {
  const chosen = chooseRules(shippedLibrary(), { season, category, segment, body: 'isu' });
  if (!chosen.ok) throw new Error(chosen.error.advice);
  return chosen.value;
}

export function elementOf(code: string): Element {
  const parsed = parseCode(code);
  if (!parsed.ok) throw new Error(`test code ${code}`);
  return parsed.value.element;
}

/** Terse outcome: chance, code, grades with chances, fall. */
export type Terse = readonly [p: number, code: string, grades: Readonly<Record<string, number>>, fall?: boolean];

export const outcomeOf = ([p, code, grades, fall = false]: Terse): SkatedOutcome => ({
  p,
  element: elementOf(code),
  grades: Object.entries(grades)
    .map(([grade, q]) => ({ grade: Number(grade), p: q }))
    .sort((a, b) => a.grade - b.grade),
  fall,
});

export const plannedElement = (
  no: number,
  code: string,
  outcomes: readonly Terse[],
  bonus = false,
): ProgramElement => ({
  no,
  code,
  bonus,
  outcomes: outcomes.map(outcomeOf),
});

export const modelOf = (
  rules: ChosenRules,
  elements: readonly ProgramElement[],
  more: Partial<ProgramModel> = {},
): ProgramModel => ({ rules, elements, components: [], formSd: 0, otherDeductions: [], ...more });

/** Grades rarer than this are left out, as the learnt model leaves them out. */
const RARE = 1e-4;

/** Grades near a mean on the half-grade grid, for full programs. */
export function gradesNear(mean: number, sd: number): Record<string, number> {
  const weights: [number, number][] = [];
  for (let g = -5; g <= 5; g += 0.5) weights.push([g, Math.exp(-(((g - mean) / sd) ** 2) / 2)]);
  const kept = weights.filter(([, w]) => w > RARE);
  const total = kept.reduce((sum, [, w]) => sum + w, 0);
  return Object.fromEntries(kept.map(([g, w]) => [String(g), w / total]));
}

/** A senior women's free skate of our own invention, with everything that may happen in it. */
export function seniorFree(formSd = 0): ProgramModel {
  const g = gradesNear;
  const jump = (no: number, code: string, alone: string, popped: string, bonus = false): ProgramElement => {
    const [first = '', ...rest] = code.split('+');
    const short = [`${first}<`, ...rest].join('+');
    const outcomes: Terse[] = [
      [0.68, code, g(1, 0.8)],
      [0.1, short, g(-2, 0.7)],
      [0.08, alone, g(-1.5, 0.8)],
      [0.08, popped, g(-1, 0.7)],
      [0.06, alone, g(-5, 0.3), true],
    ];
    return plannedElement(no, code, outcomes, bonus);
  };
  const spin = (no: number, code: string, lower: string): ProgramElement =>
    plannedElement(no, code, [
      [0.8, code, g(1.5, 0.6)],
      [0.2, lower, g(1, 0.6)],
    ]);
  const components = ['Composition', 'Presentation', 'Skating Skills'];
  return modelOf(
    rulesOf('2023/24', 'senior women', 'free'),
    [
      jump(1, '3Lz+3T', '3Lz', '2Lz'),
      jump(2, '3F', '3F', '2F'),
      jump(3, '2A', '2A', '1A'),
      jump(4, '3Lo', '3Lo', '2Lo'),
      spin(5, 'FCSp4', 'FCSp3'),
      spin(6, 'StSq4', 'StSq3'),
      jump(7, '3Lz+2T', '3Lz', '2Lz', true),
      jump(8, '2A+3T', '2A', '1A', true),
      jump(9, '3S', '3S', '2S', true),
      spin(10, 'ChSq1', 'ChSq1'),
      spin(11, 'LSp4', 'LSp3'),
      spin(12, 'CCoSp4', 'CCoSp3'),
    ],
    { formSd, components: components.map((name) => ({ name, mean: 7.25, sd: 0.3, factor: 267 })) },
  );
}

/** A protocol in the internal form from its JSON form. */
export function protocolOf(value: unknown): Protocol {
  const read = readProtocol(value);
  if (!read.ok) throw new Error(read.error.advice);
  return read.value;
}
