import { describe, expect, it } from 'vitest';
import { shippedLibrary, type Library, type Rulebook } from './index.ts';
import { readRulebookText } from './node.ts';

/** Somebody's own files: what they change, how their values are marked, where their troubles are. */

type Extended = ReturnType<Library['extend']>;

function extend(...texts: readonly string[]): Extended {
  const files = texts.map((text, i) => readRulebookText(`own-${i + 1}.yaml`, text));
  const bad = files.flatMap((file) => (file.ok ? [] : file.error));
  if (bad.length > 0) return { ok: false, error: bad };
  return shippedLibrary().extend(files.flatMap((file) => (file.ok ? [file.value] : [])));
}

function opened(result: Extended, id: string): Rulebook {
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  const rulebook = result.value.rulebook(id);
  if (!rulebook) throw new Error(`no ${id}`);
  return rulebook;
}

const CAP = `
overlay: us/2025-26
title: our chart of 2025/26
spins:
  intermediate: { cap: 3 }
`;

const CLUB = `
id: club/2025-26
body: club
season: 2025/26
title: Rink cup 2025/26
extends: isu/2025-26
valid:
  values: { from: 2025-07-01, to: 2026-06-30 }
  content: { from: 2025-07-01, to: 2026-06-30 }
  levels: { from: 2025-07-01, to: 2026-06-30 }
  deductions: { from: 2025-07-01, to: 2026-06-30 }
categories: [juvenile]
deductions:
  juvenile: { falls: [-0.25] }
`;

describe('an overlay', () => {
  it('changes its value where it says, marked local, and nothing else', () => {
    const changed = opened(extend(CAP), 'us/2025-26');
    const shipped = shippedLibrary().rulebook('us/2025-26');
    expect(shipped?.spins('intermediate women').cap).toBeNull();
    expect(changed.spins('intermediate women')).toEqual({ ...shipped?.spins('intermediate women'), cap: 3 });
    expect(changed.citation('spins.intermediate women.cap')).toEqual({
      source: 'our chart of 2025/26',
      status: 'local',
      provisional: false,
    });
    expect(changed.citation('spins.intermediate women.gate').status).not.toBe('local');
    expect(changed.row('3Lz')).toEqual(shipped?.row('3Lz'));
  });

  it('does not reach the season after it', () => {
    const next = opened(extend(CAP), 'us/2026-27');
    expect(next.spins('intermediate women').cap).toBeNull();
  });

  it('never claims to be published, whatever it says of itself', () => {
    const text = `${CAP}sources: { chart: { source: "chart read", status: published } }\ncite: chart\n`;
    const citation = opened(extend(text), 'us/2025-26').citation('spins.intermediate women.cap');
    expect(citation).toMatchObject({ source: 'chart read', status: 'local' });
  });

  it('marks what is computed from its values', () => {
    const row = opened(extend('overlay: isu/2023-24\nscale:\n  rows:\n    3Lz: 6.00\n'), 'isu/2023-24').row('3Lz<');
    expect(row?.base).toBe(480);
    // The 80 % are remembered: the weakest mark wins.
    expect(row?.citation.status).toBe('memory');
  });

  it('may set a value to not known', () => {
    const text = 'overlay: isu/2023-24\ndeductions:\n  junior: { falls: null }\n';
    expect(opened(extend(text), 'isu/2023-24').deductions('junior women', 'free').falls).toBeNull();
  });

  it('may speak of several rulebooks', () => {
    const library = extend('overlay: [us/2024-25, us/2025-26]\ndeductions:\n  novice: { falls: [-1] }\n');
    for (const id of ['us/2024-25', 'us/2025-26']) {
      expect(opened(library, id).deductions('novice men', 'short').falls).toEqual([-100]);
    }
  });
});

describe('a rulebook of one’s own', () => {
  it('is listed and inherits what it does not say', () => {
    const library = extend(CLUB);
    expect(library.ok && library.value.list()).toContain('club/2025-26');
    const club = opened(library, 'club/2025-26');
    expect(club.categories).toEqual(['juvenile women', 'juvenile men']);
    expect(club.deductions('juvenile men', 'free').falls).toEqual([-25]);
    expect(club.row('3Lz')?.base).toBe(590);
    expect(club.citation('deductions.juvenile men.falls')).toMatchObject({
      source: 'Rink cup 2025/26',
      status: 'local',
    });
  });
});

const CONTENT = 'overlay: isu/2023-24\ncontent:\n  junior:\n    free:\n      ';

/** Each trouble with the line where it stands. */
const TROUBLES: readonly [what: string, text: string, at: string, found: string][] = [
  ['a key nobody knows', 'overlay: isu/2023-24\nspins:\n  all:\n    capp: 3\n', 'own-1.yaml, line 4', '"capp"'],
  ['a family nobody knows', 'overlay: isu/2023-24\nspinz:\n  all: { cap: 3 }\n', 'own-1.yaml, line 2', '"spinz"'],
  [
    'a selector nobody knows',
    'overlay: isu/2023-24\nspins:\n  seniors: { cap: 3 }\n',
    'own-1.yaml, line 3',
    '"seniors"',
  ],
  [
    'words for a number',
    'overlay: isu/2023-24\nvalues:\n  repeatPercent: seventy\n',
    'own-1.yaml, line 3',
    '"seventy"',
  ],
  [
    'three decimals',
    'overlay: isu/2023-24\nscale:\n  rows:\n    3Lz: { base: 5.901 }\n',
    'own-1.yaml, line 4',
    '5.901',
  ],
  ['a deduction above 0', 'overlay: isu/2023-24\ndeductions:\n  junior: { falls: [1] }\n', 'own-1.yaml, line 3', '1'],
  ['an unknown target', 'overlay: isu/1999-00\nvalues: { repeatPercent: 80 }\n', 'own-1.yaml, line 1', 'isu/1999-00'],
  ['an id that is taken', 'id: isu/2023-24\nvalues: { repeatPercent: 80 }\n', 'own-1.yaml, line 1', 'isu/2023-24'],
  ['an id of no form', 'id: My Club\n', 'own-1.yaml, line 1', '"My Club"'],
  ['no id at all', 'values: { repeatPercent: 80 }\n', 'own-1.yaml', 'nothing'],
  ['a parent nobody knows', CLUB.replace('isu/2025-26', 'isu/2125-26'), 'own-1.yaml, line 6', 'isu/2125-26'],
  ['a parent that is itself', CLUB.replace('extends: isu', 'extends: club'), 'own-1.yaml, line 6', 'club/2025-26'],
  ['a season of no form', CLUB.replace('season: 2025/26', 'season: 2025'), 'own-1.yaml, line 4', '2025'],
  ['a source nobody listed', `${CAP}cite: nowhere\n`, 'own-1.yaml, line 5', '"nowhere"'],
  ['a source without a mark', `${CAP}sources: { a: { source: x } }\n`, 'own-1.yaml, line 6', '{"source":"x"}'],
  [
    'a class of too few grades',
    'overlay: isu/2016-17\nscale:\n  table:\n    classes:\n      A: [0]\n',
    'line 5',
    '1 figures',
  ],
  ['broken YAML', 'overlay: isu/2023-24\nvalues: { a: \n', 'own-1.yaml, line 2', ''],
  ['the same key twice', 'overlay: isu/2023-24\nvalues: {}\nvalues: {}\n', 'own-1.yaml, line 3', 'a second time'],
  ['a day that no calendar has', CLUB.replace('2025-07-01', '2025-02-31'), 'own-1.yaml, line 8', '"2025-02-31"'],
  ['a year that ends before it begins', CLUB.replace('to: 2026-06-30', 'to: 2024-06-30'), 'line 8', '"2024-06-30"'],
  ['a season of two years apart', CLUB.replace('season: 2025/26', 'season: 2025/27'), 'line 4', '"2025/27"'],
  ['a category that the body does not have', `${CLUB}  novice: { falls: [-0.3] }\n`, 'line 15', '"novice"'],
  ['a value below 0', 'overlay: isu/2023-24\nscale:\n  rows:\n    3Lz: { base: -5 }\n', 'own-1.yaml, line 4', '-5'],
  ['a row that no element has', 'overlay: isu/2023-24\nscale:\n  rows:\n    3LZ: 5.9\n', 'own-1.yaml, line 4', '"3LZ"'],
  ['a row that follows from another', 'overlay: isu/2023-24\nscale:\n  rows:\n    3Lz<: 4\n', 'line 4', '"3Lz<"'],
  ['a factor below 0', `${CLUB}components:\n  all: { free: { factor: -2 } }\n`, 'line 16', '-2'],
  [
    'more at least than at most',
    `${CLUB}content:\n  juvenile: { free: { steps: { min: 5, max: 3 } } }\n`,
    'line 16',
    '"min":5',
  ],
  [
    'a panel of which nothing remains',
    'overlay: isu/2023-24\nvalues:\n  panel: { trimFrom: 2 }\n',
    'line 3',
    'trimFrom',
  ],
  [
    'a general value that every category has over it',
    'overlay: isu/2025-26\ncontent:\n  senior: { free: { jumpElements: { max: five } } }\n',
    'own-1.yaml, line 3',
    '"five"',
  ],
  [
    'turn counts that do not rise',
    'overlay: isu/2023-24\nsteps:\n  all: { turnCounts: [5, 10, 7] }\n',
    'own-1.yaml, line 3',
    '[5,10,7]',
  ],
  ['too many cells', 'overlay: isu/2023-24\nsteps:\n  all: { complexityCells: 99 }\n', 'line 3', '99'],
  [
    'too many jump elements',
    'overlay: isu/2023-24\ncontent:\n  senior women: { free: { jumpElements: { max: 50 } } }\n',
    'line 3',
    '50',
  ],
  ['no number', 'overlay: isu/2023-24\nvalues:\n  repeatPercent: .nan\n', 'own-1.yaml, line 3', 'NaN'],
  ['an endless number', 'overlay: isu/2023-24\nscale:\n  rows:\n    3Lz: { base: .inf }\n', 'line 4', 'Infinity'],
  ['a key that is none', `${CONTENT}__proto__: { maxUnits: 1 }\n`, 'own-1.yaml, line 5', '"__proto__"'],
  ['an overlay with an id', 'overlay: isu/2023-24\nid: my/own\n', 'own-1.yaml, line 2', '"my/own"'],
  ['no mapping', '- a\n- b\n', 'own-1.yaml', '["a","b"]'],
  ['nothing', '', 'own-1.yaml', 'null'],
];

describe('troubles are located', () => {
  it.each(TROUBLES)('%s', (_what, text, at, found) => {
    const result = extend(text);
    expect(result.ok).toBe(false);
    const problems = result.ok ? [] : result.error;
    expect(problems.map((problem) => problem.at).join('\n')).toContain(at);
    expect(problems.map((problem) => problem.found).join('\n')).toContain(found);
    for (const problem of problems) expect(Object.values(problem).every((text) => text !== '')).toBe(true);
  });

  it('and say each thing once, though many categories inherit it', () => {
    const result = extend('overlay: isu/2023-24\nsteps:\n  all: { maxPerType: -1 }\n');
    expect(result.ok ? 0 : result.error.length).toBe(1);
  });

  it('in words, without the phrases of the checker', () => {
    for (const [, text] of TROUBLES) {
      const result = extend(text);
      for (const problem of result.ok ? [] : result.error) {
        expect(problem.expected).not.toMatch(/Invalid|Too small|Too big|undefined|received/);
      }
    }
  });

  it('once, where a file is no mapping', () => {
    const result = extend('- a\n- b\n');
    expect(result.ok ? 0 : result.error.length).toBe(1);
  });

  it('a text of unreasonable size is refused', () =>
    expect(readRulebookText('big.yaml', 'a'.repeat(3e6)).ok).toBe(false));

  it('aliases that would blow up are refused', () => {
    const bomb = [
      'a0: &a0 [x, x]',
      ...Array.from({ length: 20 }, (_, i) => `a${i + 1}: &a${i + 1} [${Array(9).fill(`*a${i}`).join(', ')}]`),
    ];
    expect(readRulebookText('bomb.yaml', bomb.join('\n')).ok).toBe(false);
  });
});
