import { describe, expect, it } from 'vitest';
import type { Token } from '../token.ts';
import { withRepairedCodes } from './codes.ts';

const token = (text: string, x: number, row: number): Token => ({
  text,
  x,
  y: row * 30,
  width: 60,
  height: 20,
  page: 1,
  confidence: 0.9,
});

/** A column of codes, with the misread one in the third row. */
const repaired = (misread: string): Token | undefined =>
  withRepairedCodes(['3Lz+3T', 'CCoSp4', misread, '2A'].map((text, row) => token(text, 100, row)))[2];

describe('codes misread in a picture', () => {
  it.each([
    ['47', '4T'],
    ['StS93', 'StSq3'],
    ['CCSpl', 'CCSp1'],
    ['FC5p4', 'FCSp4'],
    ['3L2+3T', '3Lz+3T'],
    ['ccosp4', 'CCoSp4'],
    ['3Lz+337', '3Lz+3T'],
  ])('%s in the column of codes is %s, with little confidence and the old reading kept', (misread, code) => {
    const token = repaired(misread);
    expect(token?.text).toBe(code);
    expect(token?.confidence).toBeLessThanOrEqual(0.5);
    expect(token?.alternatives?.map(({ text }) => text)).toContain(misread);
  });

  it('are left alone where no small change makes a code, and outside the column of codes', () => {
    expect(repaired('Presentation')?.text).toBe('Presentation');
    const marks = withRepairedCodes([
      ...['3Lz', '3F', '2A'].map((text, row) => token(text, 100, row)),
      token('47', 400, 1),
    ]);
    expect(marks[3]?.text).toBe('47');
  });

  it('offer the call for the sign of the second half that looks like it', () => {
    expect(repaired('3Lox')).toMatchObject({ text: '3Lox' });
    expect(repaired('3Lox')?.alternatives?.[0]?.text).toBe('3Lo<');
    expect(repaired('FSSp4x')?.alternatives).toBeUndefined();
  });

  it('keep codes that are right', () => {
    for (const code of ['3Lz<+3T', 'CCoSp3V', 'StSqB', '3F!+1Eu+3S', '4T+REP', '1A*'])
      expect(repaired(code)?.text).toBe(code);
  });
});
