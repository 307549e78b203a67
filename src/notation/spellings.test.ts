import { describe, expect, it } from 'vitest';
import {
  applyInfo,
  formatCode,
  formatElement,
  parseCategory,
  parseCode,
  parseFeedback,
  parseInfo,
  parseSeason,
  parseSegment,
} from './index.ts';

const SPELLINGS: readonly (readonly [given: string, canonical: string])[] = [
  ['3Lz<+2T', '3Lz<+2T'],
  ['3Lz < + 2T', '3Lz<+2T'],
  ['3Lz-3T', '3Lz+3T'],
  ['2A+1Eu+2S', '2A+1Eu+2S'],
  ['3A+SEQ+2T*', '3A+SEQ+2T*'],
  ['2A+3T<<+SEQ+2T*', '2A+3T<<+SEQ+2T*'],
  ['3Lz<+COMBO', '3Lz<+COMBO'],
  ['3Lz+COMBO<', '3Lz<+COMBO'],
  ['3T REP', '3T+REP'],
  ['3Fe<<', '3Fe<<'],
  ['3F<<e', '3Fe<<'],
  ['3Lz!q', '3Lz!q'],
  ['3Lz<x', '3Lz< x'],
  ['3Lz×', '3Lz x'],
  ['3LzX', '3Lz x'],
  ['3FF', '3F F'],
  ['2A F x', '2A F x'],
  ['A', 'A'],
  ['0A', 'A'],
  ['Lo*', 'Lo*'],
  ['CCoSp3V1', 'CCoSp3V'],
  ['CCoSp3V2', 'CCoSp3V2'],
  ['CCoSpV3', 'CCoSp3V'],
  ['FCSSpB', 'FCSSpB'],
  ['CSp', 'CSp'],
  ['FSSp4', 'FSSp4'],
  ['ChSq1', 'ChSq1'],
  ['ChSp1', 'ChSp1'],
  ['ChSt1', 'ChSt1'],
  ['StSq2+kpYYN', 'StSq2 YYN'],
  ['StSq2 Y N N', 'StSq2 YNN'],
  ['StSq2YYN', 'StSq2 YYN'],
  ['StSq2 kp: Y/N/N', 'StSq2 YNN'],
  ['StSq2 key points y-n-n', 'StSq2 YNN'],
  ['StSqB Y', 'StSqB Y'],
  ['CCoSp3V NU', 'CCoSp3V NU'],
  ['CCoSp3V+NS', 'CCoSp3V NS'],
  ['CCoSp1V nS', 'CCoSp1V NS'],
  ['CCoSp1V NC NU', 'CCoSp1V NC NU'],
  ['3lz', '3Lz'],
  ['ccosp4', 'CCoSp4'],
  ['３Ｌｚ＜', '3Lz<'],
  ['3Lz\u00a0&lt;\u200b', '3Lz<'],
  ['3Lz≪', '3Lz<<'],
];

describe('spellings of sheets', () => {
  it.each(SPELLINGS)('%s is %s', (given, canonical) => {
    const read = parseCode(given);
    expect(read.ok ? formatCode(read.value) : read.error).toBe(canonical);
  });
});

describe('errors of codes', () => {
  it.each([
    ['3Lzz', 'column 4', 'code.unexpected', 'Did you mean “3Lz”?'],
    ['3Lx', 'column 1', 'code.unknown-element', '“3Lo” or “3Lz”?'],
    ['CCoP4', 'column 1', 'code.unknown-element', 'or “CCoSp”?'],
    ['3T+9T', 'column 4', 'code.turns', ''],
    ['3Te', 'column 3', 'code.edge-call', ''],
    ['3Lz<<<', 'column 6', 'code.call-twice', ''],
    ['3T+3T+3T+3T+3T', 'column 13', 'code.too-many-jumps', ''],
    ['CCoSp5', 'column 6', 'code.level', ''],
    ['StSq12', 'column 5', 'code.level', ''],
    ['StSq2 YYNNY', 'column 7', 'feedback.too-many', ''],
    ['StSq4 NU', 'column 7', 'code.unexpected', ''],
    ['＜3T', 'column 1', 'code.unknown-element', ''],
    ['   ', 'column 4', 'code.empty', ''],
    ['3Lz 0,59', 'column 5', 'code.unexpected', ''],
  ])('%s: %s %s', (given, at, code, advice) => {
    const read = parseCode(given);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.error).toMatchObject({ at, code });
    expect(read.error.advice).toContain(advice);
  });
});

describe('an info column', () => {
  const place = (code: string, info: string): string | string[] => {
    const read = parseCode(code);
    if (!read.ok) return 'unreadable';
    const placed = applyInfo(read.value.element, info);
    return 'settled' in placed ? formatElement(placed.settled) : placed.choices.map(formatElement);
  };
  it.each([
    ['3Lz', '<', '3Lz<'],
    ['3Lz+2T', 'e', '3Lze+2T'],
    ['2A+3F', '!', '2A+3F!'],
    ['3Lz<+2T', '<', '3Lz<+2T'],
    ['3Lze<', 'e', '3Lze<'],
    ['3Lz+2T', '<', ['3Lz<+2T', '3Lz+2T<']],
    ['3Lz<+2T', '<<', '3Lz<+2T<<'],
    ['3F+3Lz', 'e', '3Fe+3Lz'],
    ['3T', 'e', []],
    ['3T<', 'q', []],
    ['CCoSp4', '*', 'CCoSp4*'],
    ['CCoSp4', '<', []],
    ['CCoSp3V', 'nS', 'CCoSp3V'],
    ['3Lz', 'e <', '3Lze<'],
    ['3Lz', '-', '3Lz'],
    ['3Lz', 'zz', []],
  ])('%s with %s', (code, info, expected) => expect(place(code, info)).toEqual(expected));

  it('carries falls, the second half and letters', () => {
    expect(parseInfo('F, x')).toMatchObject({ ok: true, value: { fall: true, half: true, calls: [] } });
    expect(parseInfo('kp YNN')).toMatchObject({ ok: true, value: { feedback: { letters: ['Y', 'N', 'N'] } } });
  });
});

describe('letters, categories, seasons, segments', () => {
  it('tells N (a key point) from NS (a position)', () => {
    expect(parseFeedback('N')).toMatchObject({ ok: true, value: { kind: 'key-points', letters: ['N'] } });
    expect(parseFeedback('ns')).toMatchObject({ ok: true, value: { kind: 'missing-position', positions: ['sit'] } });
    expect(parseFeedback('YXN').ok).toBe(false);
  });

  it.each([
    ['Novice Ladies', 'novice women'],
    ['JUNIOR WOMEN SINGLE SKATING', 'junior women'],
    ['Advanced Novice Girls', 'advanced novice women'],
    ['boys, intermediate novice', 'intermediate novice men'],
    ['Women’s Senior', 'senior women'],
  ])('%s', (given, category) => expect(parseCategory(given)).toEqual({ ok: true, value: category }));

  it.each(['Women', 'Junior', 'junior senior women', 'junior men and women', ''])('%s is no category', (given) =>
    expect(parseCategory(given).ok).toBe(false),
  );

  it('reads seasons whose years follow each other', () => {
    for (const given of ['2023/24', '2023-24', '2023/2024', ' 2023–2024 ']) {
      expect(parseSeason(given)).toEqual({ ok: true, value: '2023/24' });
    }
    for (const given of ['2023/25', '2023', '23/24', '2023/24/25', '1'.repeat(1000)])
      expect(parseSeason(given).ok).toBe(false);
    expect(parseSeason('1999/00')).toEqual({ ok: true, value: '1999/00' });
  });

  it('reads segments', () => {
    expect(parseSegment('Short Program')).toEqual({ ok: true, value: 'short' });
    expect(parseSegment('FREE SKATING')).toEqual({ ok: true, value: 'free' });
    expect(parseSegment('Rhythm').ok).toBe(false);
  });
});
