import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import type { Finding } from '../../src/scoring/index.ts';
import { openProtocols } from '../support/open-data.ts';
import { auditOf } from './audit-of.ts';

type Path = readonly (string | number)[];

const place = (path: Path): string =>
  path
    .map((key) => (typeof key === 'number' ? `[${key}]` : `.${key}`))
    .join('')
    .slice(1);

function at(root: unknown, path: Path): unknown {
  return path.reduce<unknown>((value, key) => Reflect.get(Object(value), key), root);
}

function put(root: unknown, path: Path, value: unknown): void {
  Reflect.set(Object(at(root, path.slice(0, -1))), path.at(-1) ?? '', value);
}

const protocols = openProtocols();
const anyProtocol = fc.nat({ max: protocols.length - 1 });
const fresh = (index: number): unknown => structuredClone(protocols[index]);

/** Every printed figure of a protocol that is not an input of the others. */
function figuresOf(index: number): Path[] {
  const printed = protocols[index];
  return [
    ...(printed?.elements ?? []).flatMap((_, i) => ['base', 'goe', 'score'].map((field) => ['elements', i, field])),
    ...(printed?.components ?? []).flatMap((_, i) => ['score', 'factor'].map((field) => ['components', i, field])),
    ['tes'],
    ['pcs'],
    ['total'],
  ];
}

/** Findings that do not follow another one. */
const roots = (findings: readonly Finding[]): string[] =>
  findings.filter((finding) => finding.follows === undefined).map((finding) => finding.at);

const followed = (findings: readonly Finding[]): string[] => [
  ...new Set(findings.flatMap((finding) => finding.follows ?? [])),
];

const anyChange = fc
  .oneof(fc.constantFrom(-1, 1, -10, 10, -100, 100), fc.integer({ min: -900, max: 900 }))
  .filter((change) => change !== 0);

describe('one altered figure', () => {
  it('is found at its place, and nothing else is accused', () => {
    fc.assert(
      fc.property(anyProtocol, fc.nat(), anyChange, (index, which, change) => {
        const figures = figuresOf(index);
        const path = figures[which % figures.length] ?? ['total'];
        const altered = fresh(index);
        const before = Number(at(altered, path));
        // `+ 0`: a sum that rounds to nothing from below is the zero that a sheet prints, not JavaScript's -0.
        const after = Math.round(before * 100 + (path.at(-1) === 'factor' ? Math.abs(change) : change)) / 100 + 0;
        put(altered, path, after);
        const { findings } = auditOf(altered);
        expect(roots(findings)).toEqual([place(path)]);
        expect(followed(findings).filter((root) => root !== place(path))).toEqual([]);
        const found = findings.find((finding) => finding.at === place(path));
        expect(found?.published).toBe(after);
        expect(found?.expected).toBe(before);
        expect(found?.kind).toBe('calculation');
      }),
      { numRuns: 3000 },
    );
  });

  it('that the sheet goes on adding is found where it began; the sums carry `follows`', () => {
    fc.assert(
      fc.property(anyProtocol, fc.nat(), anyChange, (index, which, change) => {
        const altered = protocols[index];
        if (altered === undefined) return;
        const printed = structuredClone(altered);
        const i = which % printed.elements.length;
        const element = printed.elements[i];
        if (element === undefined) return;
        const add = (points: number | null | undefined): number => Math.round((points ?? 0) * 100 + change) / 100;
        element.base = add(element.base);
        element.score = add(element.score);
        printed.tes = add(printed.tes);
        printed.total = add(printed.total);
        const { findings } = auditOf(printed);
        expect(roots(findings)).toEqual([`elements[${i}].base`]);
        expect(findings.filter((finding) => finding.follows !== undefined).map((finding) => finding.at)).toEqual([
          `elements[${i}].score`,
          'tes',
          'total',
        ]);
        expect(followed(findings)).toEqual([`elements[${i}].base`]);
      }),
      { numRuns: 500 },
    );
  });

  it('a mark that matters shows in the figure that is made of it', () => {
    let mattered = 0;
    fc.assert(
      fc.property(
        anyProtocol,
        fc.nat(),
        fc.nat({ max: 8 }),
        fc.integer({ min: -3, max: 3 }),
        (index, which, judge, grade) => {
          const altered = fresh(index);
          const i = which % (protocols[index]?.elements.length ?? 1);
          if (at(altered, ['elements', i, 'marks', judge]) === null) return;
          put(altered, ['elements', i, 'marks', judge], grade);
          const { findings } = auditOf(altered);
          if (findings.length === 0) return;
          mattered += 1;
          expect(roots(findings)).toEqual([`elements[${i}].goe`]);
          expect(followed(findings)).toEqual([`elements[${i}].goe`]);
        },
      ),
      { numRuns: 1000 },
    );
    expect(mattered).toBeGreaterThan(100);
  });

  it('a component mark that matters shows in its component', () => {
    let mattered = 0;
    fc.assert(
      fc.property(
        anyProtocol,
        fc.nat({ max: 4 }),
        fc.nat({ max: 8 }),
        fc.integer({ min: 1, max: 40 }),
        (index, i, judge, quarters) => {
          const altered = fresh(index);
          put(altered, ['components', i, 'marks', judge], quarters / 4);
          const { findings } = auditOf(altered);
          if (findings.length === 0) return;
          mattered += 1;
          expect(roots(findings)).toEqual([`components[${i}].score`]);
        },
      ),
      { numRuns: 1000 },
    );
    expect(mattered).toBeGreaterThan(100);
  });

  it('an altered deduction shows in the total that no longer agrees', () => {
    fc.assert(
      fc.property(anyProtocol, fc.integer({ min: 1, max: 6 }), (index, more) => {
        const altered = fresh(index);
        const before = Number(at(altered, ['deductions']));
        put(altered, ['deductions'], before - more);
        const { findings } = auditOf(altered);
        expect(roots(findings)).toEqual(['total']);
        expect(findings[0]?.slip).toBe(
          before === 0 ? 'deductions not subtracted' : `agrees with deductions of ${before.toFixed(2)}`,
        );
      }),
      { numRuns: 300 },
    );
  });

  it('a second-half mark taken away shows in the base value', () => {
    const wrong = protocols.slice(0, 100).flatMap((printed) =>
      printed.elements.flatMap((element, i) => {
        if (element.half !== true || element.base === 0) return [];
        const altered = structuredClone(printed);
        Object.assign(altered.elements[i] ?? {}, { half: false });
        const { findings } = auditOf(altered);
        const found = findings.find((finding) => finding.at === `elements[${i}].base`);
        return found?.slip === 'second-half bonus without its mark' ? [] : [`${String(printed.id)} ${i}`];
      }),
    );
    expect(wrong).toEqual([]);
  });
});
