import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { chanceOf, mass, moments, quantile, type Pmf } from '../pmf.ts';
import { enumerate, type Table } from '../testing/enumerate.ts';
import { modelOf, plannedElement, rulesOf, seniorFree, type Terse } from '../testing/programs.ts';
import { chainOf } from './chain.ts';
import { componentsOf, distributionOf, nodesFor } from './distribution.ts';
import { programGraph } from './graph.ts';
import { elementMoments } from './moments.ts';
import type { ProgramElement, ProgramModel, ScoreOf } from './program.ts';
import { tiltGraph } from './tilted.ts';
import { takeInHand } from './what-if.ts';

function exact(model: ProgramModel, on: ScoreOf = 'total'): Pmf {
  const pmf = distributionOf(model, on);
  if (!pmf.ok) throw new Error(pmf.error.advice);
  return pmf.value;
}

function expectSame(pmf: Pmf, table: Table): void {
  for (const [points, p] of table) expect(pmf.p[points - pmf.from] ?? 0).toBeCloseTo(p, 12);
  pmf.p.forEach((p, i) => {
    if (p > 1e-12) expect(table.has(pmf.from + i)).toBe(true);
  });
  expect(mass(pmf)).toBeCloseTo(1, 11);
}

const CLEAN = { '0': 0.5, '1': 0.3, '2.5': 0.2 };
const BAD = { '-3': 0.6, '-2': 0.4 };
const LOWEST = { '-5': 1 };

/** Elements whose outcomes meet repeat, surplus, Axel and fall rules. */
const POOL: readonly (readonly [string, readonly Terse[]])[] = [
  [
    '3T',
    [
      [0.6, '3T', CLEAN],
      [0.2, '2T', BAD],
      [0.2, '3T', LOWEST, true],
    ],
  ],
  [
    '3T+2T',
    [
      [0.5, '3T+2T', CLEAN],
      [0.3, '3T', BAD],
      [0.2, '2T+2T', BAD],
    ],
  ],
  [
    '2T',
    [
      [0.8, '2T', CLEAN],
      [0.2, '1T', BAD],
    ],
  ],
  [
    '2A',
    [
      [0.7, '2A', CLEAN],
      [0.2, '1A', BAD],
      [0.1, '2A', LOWEST, true],
    ],
  ],
  [
    '3A',
    [
      [0.4, '3A', CLEAN],
      [0.3, '2A', BAD],
      [0.3, '3A<', LOWEST, true],
    ],
  ],
  [
    '3Lz+3T',
    [
      [0.5, '3Lz+3T', CLEAN],
      [0.3, '3Lz<+3T', BAD],
      [0.2, '3Lz', LOWEST, true],
    ],
  ],
  [
    '3Lz',
    [
      [0.7, '3Lz', CLEAN],
      [0.3, '2Lz', BAD],
    ],
  ],
  [
    '2A+1Eu+3S',
    [
      [0.6, '2A+1Eu+3S', CLEAN],
      [0.4, '2A', BAD],
    ],
  ],
  [
    '3S',
    [
      [0.6, '3S', CLEAN],
      [0.4, '3S', LOWEST, true],
    ],
  ],
  [
    'CCoSp4',
    [
      [0.7, 'CCoSp4', CLEAN],
      [0.3, 'CCoSp3V', CLEAN],
    ],
  ],
  [
    'StSq4',
    [
      [0.5, 'StSq4', CLEAN],
      [0.5, 'StSq2', CLEAN],
    ],
  ],
];

const someProgram = fc
  .array(fc.tuple(fc.nat(POOL.length - 1), fc.boolean()), { minLength: 1, maxLength: 5 })
  .map((picks): readonly ProgramElement[] =>
    picks.map(([index, bonus], i) => {
      const [code, outcomes] = POOL[index] ?? ['2T', []];
      return plannedElement(i + 1, code, outcomes, bonus && !code.includes('Sp') && !code.includes('StSq'));
    }),
  );

describe('exact distribution against the enumeration of all outcomes', () => {
  const settings = [
    ['2023/24', 'senior women', 'free'],
    ['2023/24', 'junior men', 'short'],
    ['2017/18', 'senior men', 'free'],
    ['2024/25', 'advanced novice women', 'free'],
  ] as const;
  for (const [season, category, segment] of settings) {
    it(`${category}, ${segment}, ${season}: repeats, surplus, bonus, falls`, () => {
      const rules = rulesOf(season, category, segment);
      const sixteen = season === '2017/18';
      fc.assert(
        fc.property(someProgram, (elements) => {
          const fitting = elements.map((e) => ({
            ...e,
            outcomes: e.outcomes.map((o) => ({
              ...o,
              grades: sixteen ? o.grades.map((g) => ({ ...g, grade: Math.max(-3, Math.min(3, g.grade)) })) : o.grades,
            })),
          }));
          const model = modelOf(rules, fitting);
          expectSame(exact(model, 'total'), enumerate(model, true));
          expectSame(exact(model, 'tes'), enumerate(model, false));
        }),
        { numRuns: 25 },
      );
    });
  }

  it('deducts a third fall of a senior at two points, in whatever order the falls happen', () => {
    // Senior singles: 1st and 2nd fall -1.0 each, 3rd and 4th -2.0 each (published, rule 353).
    const jumps = ['3T', '3S', '3Lo', '3F'].map((code, i) =>
      plannedElement(i + 1, code, [
        [0.5, code, CLEAN],
        [0.5, code, LOWEST, true],
      ]),
    );
    const model = modelOf(rulesOf('2023/24', 'senior women', 'free'), jumps);
    expectSame(exact(model), enumerate(model, true));
  });
});

describe('form of the day', () => {
  const independent = seniorFree(0);
  const tied = seniorFree(0.8);

  it('leaves the mean as it is where nothing is coupled, and widens the spread', () => {
    const elements = independent.elements.filter((e) => e.no === 3 || e.no >= 10);
    const plain = moments(exact({ ...independent, elements, components: [] }, 'tes'));
    const day = moments(exact({ ...tied, elements, components: [] }, 'tes'));
    expect(day.mean).toBeCloseTo(plain.mean, 8);
    expect(day.sd).toBeGreaterThan(plain.sd * 1.05);
  });

  it('has a spread that is the sum of the elements’ shares and of the components', () => {
    for (const model of [independent, tied]) {
      const graph = programGraph(model, true);
      if (!graph.ok) throw new Error(graph.error.advice);
      const nodes = nodesFor(model.formSd);
      const parts = elementMoments(tiltGraph(graph.value, model.formSd, nodes), nodes);
      const sum = parts.reduce((total, e) => total + e.covariance, 0) + moments(componentsOf(model)).variance;
      expect(sum / moments(exact(model)).variance).toBeCloseTo(1, 8);
    }
  });

  it('adds element means to the mean of the element score', () => {
    const graph = programGraph(tied, false);
    if (!graph.ok) throw new Error(graph.error.advice);
    const nodes = nodesFor(tied.formSd);
    const parts = elementMoments(tiltGraph(graph.value, tied.formSd, nodes), nodes);
    expect(parts.reduce((sum, e) => sum + e.mean, 0)).toBeCloseTo(moments(exact(tied, 'tes')).mean, 6);
  });
});

describe('a what-if', () => {
  it('equals a cold forecast, for coupled and free elements, with and without the day factor', () => {
    for (const formSd of [0, 0.6]) {
      const model = seniorFree(formSd);
      for (const index of [0, 2, 6, 11]) {
        const hand = takeInHand(model, index);
        if (!hand.ok) throw new Error(hand.error.advice);
        const [first, second, ...rest] = model.elements[index]?.outcomes ?? [];
        if (first === undefined || second === undefined) throw new Error('two outcomes expected');
        const outcomes = [
          { ...first, p: first.p - 0.05 },
          { ...second, p: second.p + 0.05, grades: first.grades },
          ...rest,
        ];
        const changed = hand.value.with(outcomes);
        if (!changed.ok) throw new Error(changed.error.advice);
        const cold = exact({
          ...model,
          elements: model.elements.map((e, i) => (i === index ? { ...e, outcomes } : e)),
        });
        const differences = cold.p.map((p, i) =>
          Math.abs((changed.value.p[cold.from + i - changed.value.from] ?? 0) - p),
        );
        expect(Math.max(...differences)).toBeLessThan(1e-12);
      }
    }
  });

  it('refuses other elements than before', () => {
    const model = seniorFree();
    const hand = takeInHand(model, 1);
    if (!hand.ok) throw new Error(hand.error.advice);
    expect(hand.value.with(model.elements[2]?.outcomes ?? []).ok).toBe(false);
  });
});

describe('a Monte Carlo draw of a whole free skate', () => {
  it('agrees at 20 quantiles within 4 standard errors', () => {
    const model = { ...seniorFree(0.6), components: [] };
    const pmf = exact(model);
    const DRAWS = 60_000;
    const scores = draw(model, DRAWS);
    for (let k = 1; k <= 20; k++) {
      const level = k / 21;
      const x = quantile(pmf, level);
      const truth = 1 - chanceOf(pmf, x + 1);
      const found = scores.filter((s) => s <= x).length / DRAWS;
      expect(Math.abs(found - truth)).toBeLessThan(4 * Math.sqrt((truth * (1 - truth)) / DRAWS));
    }
  });
});

/** Seeded draws through the automaton, one node of the day for each program. */
function draw(model: ProgramModel, draws: number): readonly number[] {
  const graph = programGraph(model, true);
  if (!graph.ok) throw new Error(graph.error.advice);
  const nodes = nodesFor(model.formSd);
  const levels = tiltGraph(graph.value, model.formSd, nodes);
  let seed = 12345;
  const uniform = (): number => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    return seed / 2 ** 32;
  };
  const pick = (weights: readonly number[]): number => {
    let u = uniform() * weights.reduce((sum, w) => sum + w, 0);
    const at = weights.findIndex((w) => (u -= w) < 0);
    return at < 0 ? weights.length - 1 : at;
  };
  const weights = nodes.map((n) => n.weight);
  return Array.from({ length: draws }, () => {
    const node = pick(weights);
    let state = 0;
    let points = 0;
    for (const { level, chances } of levels) {
      const rows = chances[node] ?? [];
      const outcome = pick(rows.map((row) => row.reduce((sum, p) => sum + p, 0)));
      const grade = pick(rows[outcome] ?? []);
      const arc = level.arcs[state]?.[outcome];
      if (arc === undefined) throw new Error('no arc');
      points += (level.values[arc.value]?.points[grade] ?? 0) + arc.deduct;
      state = arc.next;
    }
    return points;
  });
}

describe('the chain', () => {
  it('sums apart what neither asks nor changes the state', () => {
    const graph = programGraph(seniorFree(), true);
    if (!graph.ok) throw new Error(graph.error.advice);
    const chain = chainOf(tiltGraph(graph.value, 0, nodesFor(0)));
    expect(chain.free.length + chain.coupled.length).toBe(12);
    expect(chain.free.map((t) => t.level.element.code)).toContain('CCoSp4');
  });
});
