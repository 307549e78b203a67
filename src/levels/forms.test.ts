import { describe, expect, it } from 'vitest';
import { readPlan } from './plan.ts';
import { readSpin, readSpins } from './spin-form.ts';
import { readSteps } from './step-form.ts';

const troubleOf = (read: {
  readonly ok: boolean;
  readonly error?: { readonly at: string; readonly expected: string };
}): string => (read.error === undefined ? 'fine' : `${read.error.at}: ${read.error.expected}`);
const steps = (moves: unknown) => troubleOf(readSteps({ kind: 'steps', moves }));
const spin = (code: string, parts: unknown, more: object = {}) =>
  troubleOf(readSpin({ kind: 'spin', code, parts, ...more }));
const sit = { foot: 'L', position: 'sit', revolutions: 3 };

describe('step sequences that cannot be', () => {
  it.each([
    ['an edge that does not exist', [{ turn: 'rocker', edge: 'RFQ' }], 'moves[0].edge: an entry edge'],
    [
      'an unknown turn',
      [
        { turn: 'rocker', edge: 'RFO' },
        { turn: 'spiral', edge: 'RFO' },
      ],
      'moves[1].turn: a turn',
    ],
    ['a share below 0', [{ turn: 'rocker', edge: 'RFO', share: -0.1 }], 'moves[0].share: a share from 0 to 1'],
    ['a share above 1', [{ turn: 'rocker', edge: 'RFO', share: 1.5 }], 'moves[0].share: a share from 0 to 1'],
    [
      'shares above 1 together',
      [
        { turn: 'rocker', edge: 'RFO', share: 0.6 },
        { turn: 'loop', edge: 'RBO', share: 0.5 },
      ],
      'moves: shares that sum to at most 1',
    ],
    ['a chance above 1', [{ turn: 'rocker', edge: 'RFO', credit: 1.2 }], 'moves[0].credit: a chance from 0 to 1'],
    [
      'a rotation nobody knows',
      [{ turn: 'rocker', edge: 'RFO', rotation: 'up' }],
      'moves[0].rotation: left, right or null',
    ],
    ['a rocker turned like a counter', [{ turn: 'rocker', edge: 'RFO', direction: 'ccw' }], 'moves[0].direction: cw'],
    [
      '200 turns',
      Array.from({ length: 200 }, () => ({ turn: 'rocker', edge: 'RFO' })),
      'moves: a list of at most 100 moves',
    ],
    ['something else', 7, 'moves: a list of at most 100 moves'],
    ['a line with a mistake', 'LFO rocker, LBX loop', 'moves, line 1, column 13'],
  ])('%s', (_what, moves, trouble) => {
    expect(steps(moves)).toContain(trouble);
  });

  it('takes rounding in the sum of shares, and the season, category and segment of the heading', () => {
    expect(
      steps([
        { turn: 'rocker', edge: 'RFO', share: 0.6 },
        { turn: 'loop', edge: 'RBO', share: 0.4000005 },
      ]),
    ).toBe('fine');
    expect(troubleOf(readSteps({ kind: 'steps', season: 'last year', moves: [] }))).toContain('season');
  });

  it('takes equal shares with a warning where none is given, and 0 for a missing one among others', () => {
    const shares = (moves: unknown) => {
      const read = readSteps({ kind: 'steps', moves });
      return read.ok ? [read.value.moves.map((move) => move.share), read.value.warnings.length] : null;
    };
    expect(shares('LFO Ro Co')).toEqual([[0.5, 0.5], 1]);
    expect(shares('LFO Ro 20% Co')).toEqual([[0.2, 0], 0]);
  });
});

describe('spins that cannot be', () => {
  it.each([
    ['a code that is no spin', '3Lz', [sit], {}, 'code: a spin code'],
    ['a code that does not exist', 'XSp', [sit], {}, 'code: a spin code'],
    ['no parts', 'SSp', [], {}, 'parts: a list of 1 to 40 parts'],
    ['negative revolutions', 'SSp', [{ ...sit, revolutions: -1 }], {}, 'parts[0].revolutions: revolutions from 0'],
    ['a position nobody knows', 'SSp', [{ ...sit, position: 'headstand' }], {}, 'parts[0].position: a position'],
    [
      'a camel variation in a sit position',
      'SSp',
      [{ ...sit, variation: 'CF' }],
      {},
      'parts[0].variation: a variation of the sit position',
    ],
    ['an unknown feature', 'SSp', [{ ...sit, features: ['smile'] }], {}, 'parts[0].features[0]: a feature'],
    [
      'back and sideways without layback',
      'SSp',
      [{ ...sit, features: ['back-sideways'] }],
      {},
      'parts[0].features[0]: this feature on a layback',
    ],
    [
      'a Biellmann in a sit position',
      'SSp',
      [{ ...sit, features: ['biellmann'] }],
      {},
      'this feature on a layback or upright',
    ],
    [
      'a flying entry without flying',
      'SSp',
      [{ ...sit, features: ['difficult-flying-entry'] }],
      {},
      'in a flying spin only',
    ],
    [
      'a change of foot without one',
      'SSp',
      [{ ...sit, features: ['change-of-foot-by-jump'] }],
      {},
      'with change of foot only',
    ],
    [
      'a second foot without change of foot',
      'SSp',
      [sit, { ...sit, foot: 'R' }],
      {},
      'parts[1].foot: L, or a code with a change of foot',
    ],
    ['a chance below 0', 'SSp', [{ ...sit, credit: -0.1 }], {}, 'parts[0].credit: a chance from 0 to 1'],
    ['an unknown name among what is used', 'SSp', [sit], { used: ['CF', 'XX'] }, 'used[1]: a variation or feature'],
  ])('%s', (_what, code, parts, more, trouble) => {
    expect(spin(code, parts, more)).toContain(trouble);
  });

  it('are located inside a program', () => {
    const program = {
      kind: 'spins',
      spins: [
        { code: 'SSp', parts: [sit] },
        { code: 'SSp', parts: [{ ...sit, revolutions: -1 }] },
      ],
    };
    expect(troubleOf(readSpins(program))).toContain('spins[1].parts[0].revolutions');
  });

  it('take a code with level and V as the spin it names', () => {
    const read = readSpin({ kind: 'spin', code: 'CCoSp4V', parts: [sit] });
    expect(read.ok && read.value.spin).toMatchObject({ code: 'CCoSp', changeFoot: true, position: 'Co' });
  });
});

describe('a plan', () => {
  it('is known by its kind, or by its fields', () => {
    expect(troubleOf(readPlan({ moves: 'LFO Ro' }))).toBe('fine');
    expect(troubleOf(readPlan({ code: 'SSp', parts: [sit] }))).toBe('fine');
    expect(troubleOf(readPlan({ spins: [{ code: 'SSp', parts: [sit] }] }))).toBe('fine');
    for (const odd of [{ kind: 'dance' }, {}, null, 7, 'text', [1]])
      expect(troubleOf(readPlan(odd))).toContain('kind: steps, spin or spins');
  });
});
