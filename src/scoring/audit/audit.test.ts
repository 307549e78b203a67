import { describe, expect, it } from 'vitest';

import { readLayout } from '../index.ts';
import { auditOf } from '../testing/rules.ts';
import type { Finding } from './finding.ts';

const heading = { id: 'x', season: '2023/24', body: 'isu', category: 'senior women', segment: 'free' };
const sheet = (fields: object) => auditOf({ ...heading, elements: [], ...fields });
const one = (element: object, fields: object = {}) => sheet({ elements: [{ no: 1, ...element }], ...fields });
const only = (findings: readonly Finding[]): Finding | undefined => {
  expect(findings).toHaveLength(1);
  return findings[0];
};
/** Seven judges, all the same grade: 3Lz with +2 is 5.90 + 1.18. */
const same = (grade: number): number[] => Array.from({ length: 7 }, () => grade);

describe('calls in the info column', () => {
  it('are the same element as calls in the code', () => {
    const inCode = one({ code: '3Lz<', marks: same(-2) }).elements[0];
    const inInfo = one({ code: '3Lz', info: '<', marks: same(-2) }).elements[0];
    const both = one({ code: '3Lz<', info: '<', marks: same(-2) }).elements[0];
    expect(inInfo).toEqual(inCode);
    expect(both).toEqual(inCode);
    expect(inCode?.base).toBe(472);
  });

  it('go to the jump for which the printed base value fits', () => {
    // 3Lz< + 3T: 4.72 + 4.20; 3Lz + 3T<: 5.90 + 3.36.
    expect(one({ code: '3Lz+3T', info: '<', base: 8.92, marks: same(0) }).findings).toEqual([]);
    expect(one({ code: '3Lz+3T', info: '<', base: 9.26, marks: same(0) }).findings).toEqual([]);
  });

  it('are left out with a finding where nothing settles them', () => {
    const { findings, elements } = one({ code: '3Lz+3T', info: '<', marks: same(0) });
    expect(only(findings)).toMatchObject({
      kind: 'unreadable',
      at: 'elements[0].info',
      published: '<',
      alternatives: ['3Lz<+3T', '3Lz+3T<'],
    });
    expect(elements[0]?.base).toBe(1010);
  });

  it('q changes no base value, so that a combination stays open', () => {
    const { findings } = one({ code: '3Lz+3T', info: 'q', base: 10.1, marks: same(0) });
    expect(only(findings)).toMatchObject({ kind: 'unreadable', alternatives: ['3Lzq+3T', '3Lz+3Tq'] });
  });

  it('only the call in doubt is left out: the others of the same column stay where they belong', () => {
    // The edge call can only be the Lutz: 4.72 + 4.20, whichever landing the < belongs to.
    const { findings, elements } = one({ code: '3Lz+3T', info: 'e <', marks: same(0) });
    expect(only(findings)).toMatchObject({ kind: 'unreadable', alternatives: ['3Lze<+3T', '3Lze+3T<'] });
    expect(elements[0]?.base).toBe(892);
  });

  it('a star beside a combination strikes out what the printed base value says', () => {
    const based = (base: number) => one({ code: '3Lz+3T', info: '*', base, marks: [] });
    expect(based(5.9)).toMatchObject({ findings: [], elements: [{ base: 590 }] });
    expect(based(0)).toMatchObject({ findings: [], elements: [{ base: 0, goe: 0, score: 0 }] });
  });

  it('e goes to the first flip or Lutz without asking', () => {
    expect(one({ code: '2A+3F', info: 'e', base: 7.54, marks: same(0) }).findings).toEqual([]);
  });
});

describe('what is missing', () => {
  it('marks: the printed grade stands unchecked, and the sums use it', () => {
    const { elements, tes, findings } = one({ code: '3Lz', base: 5.9, goe: 0.77, score: 6.67 }, { tes: 6.67 });
    expect(elements[0]).toMatchObject({ base: 590, goe: 77, score: 667 });
    expect(tes).toBe(667);
    expect(findings).toEqual([]);
  });

  it('marks and grade: null, and so are the sums', () => {
    const { elements, tes, total } = one({ code: '3Lz', base: 5.9, score: 6.67 }, { tes: 6.67, total: 10 });
    expect(elements[0]).toMatchObject({ base: 590, goe: null, score: null });
    expect([tes, total]).toEqual([null, null]);
  });

  it('an element without value is 0 with or without marks', () => {
    for (const marks of [[], same(3)]) {
      expect(one({ code: '2A*', marks }).elements[0]).toMatchObject({ base: 0, goe: 0, score: 0 });
    }
  });

  it('an absent factor comes from the rulebook', () => {
    const { pcs } = sheet({
      components: ['Composition', 'Presentation', 'Skating Skills'].map((name) => ({ name, marks: [7, 7, 7] })),
    });
    // 7.00 x 2.67 = 18.69, three times.
    expect(pcs).toBe(5607);
  });

  it('a factor that the rulebook does not know either: the sums are not told, and that is said', () => {
    const { pcs, total, warnings } = sheet({
      body: 'us',
      category: 'novice women',
      components: ['Composition', 'Presentation', 'Skating Skills'].map((name) => ({ name, marks: [5, 5, 5] })),
      total: 31.95,
      deductions: 0,
    });
    expect([pcs, total]).toEqual([null, null]);
    expect(warnings.join()).toContain('No component factor is printed');
  });

  it('a line of components: their sum is not told, unless the printed one is that of the rest', () => {
    const components = [{ name: 'Composition', factor: 2.67, marks: [7, 7, 7], score: 7 }];
    expect(sheet({ components, pcs: 50 })).toMatchObject({ pcs: null, findings: [] });
    expect(only(sheet({ components, pcs: 18.7 }).findings)).toMatchObject({ at: 'pcs', expected: 18.69 });
    expect(sheet({ components, pcs: 18.69 })).toMatchObject({ pcs: 1869, findings: [] });
  });
});

describe('method', () => {
  it('is told apart where the two orders differ, and the score follows it', () => {
    // Five judges keep 1 1 3: (47 + 47 + 142) / 3 = 78.67 -> 0.79; 5 / 3 x 0.472 = 0.7867 -> 0.79; between 47 and 94: 78.33 -> 0.78.
    const { findings } = one({ code: '3Lz<', base: 4.72, goe: 0.78, marks: [1, 1, 1, 3, 3], score: 5.5 }, { tes: 5.5 });
    expect(findings.map(({ kind, at, follows }) => [kind, at, follows])).toEqual([
      ['method', 'elements[0].goe', undefined],
      ['method', 'elements[0].score', 'elements[0].goe'],
      ['method', 'tes', 'elements[0].goe'],
    ]);
  });

  it('is no excuse for a 0.01 that closes under neither order', () => {
    // Grades 3 4 4 4 4 4 5: 1.89 by the row, 4 x 0.472 = 1.888 -> 1.89 by the mean grade.
    expect(only(one({ code: '3Lz<', goe: 1.88, marks: [4, 4, 4, 4, 4, 3, 5] }).findings)?.kind).toBe('calculation');
  });

  it('does not exist in seasons whose order is proved', () => {
    const form = {
      ...heading,
      season: '2017/18',
      elements: [{ code: '4T', goe: 0.14, marks: [-1, 0, 1, 0, -1, 1, 0, 1, 0] }],
    };
    expect(only(auditOf(form).findings)?.kind).toBe('calculation');
  });
});

describe('small panels', () => {
  const rows = [
    { no: 1, code: '3Lz', marks: [0, 1, 1, 5] },
    { no: 2, code: '3F', marks: [-2, 0, 1, 1] },
  ];

  it('average all marks by rule', () => {
    // 7 / 4 x 0.59 = 1.0325 -> 1.03; 0.
    expect(sheet({ elements: rows.map((row, i) => ({ ...row, goe: [1.03, 0][i] })) })).toMatchObject({
      findings: [],
      warnings: [],
    });
  });

  it('are trimmed, with a warning, if the whole sheet closes only that way', () => {
    // 1 x 0.59; 0.5 x 0.53 = 0.265 -> 0.27.
    const done = sheet({ elements: rows.map((row, i) => ({ ...row, goe: [0.59, 0.27][i] })) });
    expect(done.findings).toEqual([]);
    expect(done.elements.map((element) => element.goe)).toEqual([59, 27]);
    expect(done.warnings.join()).toContain('fewer than 5');
  });

  it('keep the rule if only a part closes the other way', () => {
    const { findings } = sheet({ elements: rows.map((row, i) => ({ ...row, goe: [1.03, 0.27][i] })) });
    expect(only(findings)).toMatchObject({ kind: 'calculation', at: 'elements[1].goe', expected: 0 });
  });
});

describe('well-known slips', () => {
  it.each([
    // 5.90 + 4.20 = 10.10; x 1.1 = 11.11.
    [{ code: '3Lz+3T', half: true, base: 10.1 }, 'second-half bonus missing'],
    [{ code: '3Lz+3T', half: false, base: 11.11 }, 'second-half bonus without its mark'],
    [{ code: '3Lz+REP', base: 5.9 }, 'repeated jump not reduced'],
    [{ code: '3Lz<', base: 5.9 }, 'call not applied'],
    [{ code: '3Lz+3T', base: 5.9 }, 'a jump of the combination left out'],
    [{ code: '3Lz', base: 9.5 }, 'two digits exchanged'],
    // Grades 0 1 1 1 1 1 5: all that are kept are 1, 0.59.
    [{ code: '3Lz', goe: 0.98, marks: [0, 1, 1, 1, 1, 1, 5] }, 'highest mark not dropped'],
    [{ code: '3Lz', goe: 0.49, marks: [0, 1, 1, 1, 1, 1, 5] }, 'lowest mark not dropped'],
    [{ code: '3Lz', goe: -0.59, marks: [0, 1, 1, 1, 1, 1, 5] }, 'wrong sign'],
    [
      { code: '3Lz', base: 5.9, goe: 1.18, marks: [2, 2, 2, 2, 2], score: 4.72 },
      'grade of execution with the wrong sign',
    ],
  ])('%j: %s', (element, slip) => {
    const finding = only(one(element).findings);
    expect(finding).toMatchObject({ kind: 'calculation', slip });
  });

  it('the second-half factor on the grades, only where the element has one', () => {
    // 0.59 x 1.1 = 0.65; for a spin of 3.20 with two marks of +2: 0.64 x 1.1 = 0.70.
    const jump = { code: '3Lz', half: true, goe: 0.65, marks: same(1) };
    expect(only(one(jump).findings)?.slip).toBe('second-half factor applied to the grades');
    expect(only(one({ code: 'FCSp4', goe: 0.7, marks: [2, 2] }).findings)?.slip).toBeUndefined();
  });

  it('the sequence factor of 2021/22', () => {
    const form = { ...heading, season: '2021/22', elements: [{ code: '3Lz+2A+SEQ', base: 9.2, marks: same(0) }] };
    expect(only(auditOf(form).findings)?.slip).toBe('sequence factor 0.8 not applied');
  });

  it('a wrong factor', () => {
    const components = ['Composition', 'Presentation', 'Skating Skills'].map((name) => ({
      name,
      factor: 2.67,
      marks: [7, 7, 7, 7, 7],
      score: 7,
    }));
    // 7.00 x 3.33 = 23.31, three times: the factor of the men.
    expect(only(sheet({ components, pcs: 69.93 }).findings)).toMatchObject({
      at: 'pcs',
      slip: 'wrong factor 3.33',
      expected: 56.07,
    });
  });
});

describe('falls against the deduction', () => {
  const elements = [{ code: '3LzF' }, { code: '3F', info: 'F' }];
  it.each([
    [-2, 0],
    [-1, 1],
    [-4, 1],
    [-2.5, 0],
  ])('two marks of a fall and a sum of %d: %d slips', (deductions, slips) => {
    expect(sheet({ elements, deductions }).findings.map(({ kind }) => kind)).toEqual(
      Array.from({ length: slips }, () => 'slip'),
    );
  });

  it('counts the line of falls and checks it against the scale', () => {
    const at = (count: number, points: number) =>
      sheet({ elements, deductions: [{ reason: 'Falls', count, points }] }).findings.map((finding) => [
        finding.kind,
        finding.at,
      ]);
    expect(at(2, -2)).toEqual([]);
    expect(at(1, -1)).toEqual([['slip', 'deductions[0].count']]);
    expect(at(2, -3)).toEqual([['calculation', 'deductions[0].points']]);
  });

  it('is asked too where no deduction is printed and the total has none in it', () => {
    const at = (total: number, mark: string) =>
      sheet({ elements: [{ code: `3Lz${mark}` }], tes: 40, pcs: 50, total }).findings.filter(
        ({ at }) => at === 'deductions',
      );
    expect(at(90, 'F')).toMatchObject([
      { kind: 'slip', published: null, expected: -1, slip: 'falls against the deduction' },
    ]);
    // Something is taken off the total: what was copied may lack the line.
    expect(at(89, 'F')).toEqual([]);
    expect(at(90, '')).toEqual([]);
  });

  it('says nothing when no fall is marked', () => {
    expect(sheet({ elements: [{ code: '3Lz' }], deductions: -1 }).findings).toEqual([]);
  });
});

describe('second-half marks against the printed order', () => {
  const jumps = (marks: string) =>
    marks.split('').map((mark, i) => ({
      no: i + 1,
      code: ['3Lz', '3F', '3Lo', '2A', '3S', '3T'][i] ?? '',
      half: mark === 'x',
    }));
  it.each([
    ['2023/24', '---xxx', []],
    ['2023/24', '----xx', []],
    ['2023/24', '--xxxx', ['elements[2].half']],
    ['2023/24', '---x-x', ['elements[4].half']],
    ['2023/24', '------', []],
    ['2017/18', '-xxxxx', []],
    ['2017/18', '-xx-xx', ['elements[3].half']],
  ])('%s %s: %j', (season, marks, places) => {
    const { findings } = sheet({ season, elements: jumps(marks) });
    expect(findings.map((finding) => [finding.kind, finding.at])).toEqual(places.map((place) => ['slip', place]));
  });

  it('are only remarked on where the category has no such factor', () => {
    const novice = { season: '2023/24', body: 'isu', category: 'advanced novice women', segment: 'free' };
    const done = auditOf({ ...novice, elements: [{ code: '2A', half: true, base: 3.63, marks: [] }] });
    expect(done.findings).toEqual([]);
    expect(done.warnings.join()).toContain('no second-half factor');
  });

  it('a spin cannot have one', () => {
    expect(only(sheet({ elements: [{ code: 'CCoSp4', half: true, base: 3.5 }] }).findings)).toMatchObject({
      at: 'elements[0].half',
      kind: 'slip',
    });
  });
});

describe('bonus points', () => {
  const novice = { season: '2023/24', category: 'novice women', segment: 'free' };
  const sums = { tes: 6.49, pcs: 30, deductions: 0 };
  const elements = [{ code: '3Lz', base: 5.9, goe: 0.59, marks: same(1), score: 6.49 }];
  const components = [{ name: 'Composition', factor: 3, marks: [10, 10, 10], score: 10 }];

  it('are added where the sheet prints them', () => {
    expect(auditOf({ ...novice, elements, components, ...sums, bonus: 1, total: 37.49 })).toMatchObject({
      total: 3749,
      findings: [],
    });
  });

  it('explain whole and half points too many where the rulebook does not exclude them', () => {
    for (const total of [37.49, 36.99]) {
      expect(only(auditOf({ ...novice, elements, components, ...sums, total }).findings)).toMatchObject({
        kind: 'slip',
        at: 'total',
        slip: 'possible bonus',
      });
    }
    for (const total of [36.59, 35.49]) {
      expect(only(auditOf({ ...novice, elements, components, ...sums, total }).findings)?.kind).toBe('calculation');
    }
  });

  it('do not where the rulebook has none', () => {
    expect(only(sheet({ elements, components, ...sums, total: 37.49 }).findings)?.kind).toBe('calculation');
  });
});

describe('what cannot be', () => {
  it('a grade off the scale is found at its place; the printed grade stands', () => {
    const { findings, elements } = one({ code: '3Lz', goe: 0.5, marks: [1, 1, 7, 1, 1] });
    expect(only(findings)).toMatchObject({ kind: 'rule', at: 'elements[0].marks[2]', published: 7, expected: null });
    expect(elements[0]?.goe).toBe(50);
  });

  it.each([8.1, 11, 0])('a component mark of %d', (mark) => {
    const { findings } = sheet({
      components: [{ name: 'Composition', factor: 2.67, marks: [8, mark, 8, 8, 8], score: 8 }],
    });
    expect(only(findings)).toMatchObject({ kind: 'rule', at: 'components[0].marks[1]', published: mark });
  });

  it('a code that cannot be read', () => {
    const { findings, elements } = one({ code: '3Lzz', base: 5.9, goe: 0.5, score: 6.4 });
    expect(only(findings)).toMatchObject({ kind: 'unreadable', at: 'elements[0].code', published: '3Lzz' });
    expect(elements[0]).toMatchObject({ base: 590, goe: 50, score: 640 });
  });

  it('a jump that the season does not list is never 0', () => {
    const { findings, elements } = one({ code: '5T', marks: same(0) });
    expect(only(findings)).toMatchObject({ kind: 'unreadable', at: 'elements[0].code' });
    expect(elements[0]).toMatchObject({ base: null, goe: null, score: null });
  });

  it('two skaters on one sheet', () => {
    const elements = [1, 2, 1].map((no) => ({ no, code: '3Lz' }));
    expect(sheet({ elements }).findings.map((finding) => finding.at)).toEqual(['elements[2].no']);
  });
});

describe('codes against a plan', () => {
  const plan = (codes: readonly string[]) => {
    const layout = readLayout({ elements: codes.map((code) => ({ code })) });
    return layout.ok ? layout.value : null;
  };
  const told = (printed: readonly string[], planned: readonly string[]) =>
    auditOf({ ...heading, elements: printed.map((code) => ({ code })) }, { layout: plan(planned) }).findings.map(
      ({ kind, at, expected }) => [kind, at, expected],
    );

  it('calls and levels are no difference', () => {
    expect(told(['3Lz<+3T', 'CCoSp2V', 'StSq1'], ['3Lz+3T', 'CCoSp4', 'StSq'])).toEqual([]);
  });

  it('another jump, a missing element and one too many are possible slips', () => {
    expect(told(['3Lz+2T', '2A', 'CCoSp4'], ['3Lz+3T', '2A', 'CCoSp4'])).toEqual([
      ['slip', 'elements[0].code', '3Lz+3T'],
    ]);
    expect(told(['3Lz', 'CCoSp4'], ['3Lz', '2A', 'CCoSp4'])).toEqual([['slip', 'elements', '2A']]);
    expect(told(['3Lz', '2A', 'CCoSp4'], ['3Lz', 'CCoSp4'])).toEqual([['slip', 'elements[1].code', null]]);
  });
});
