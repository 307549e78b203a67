import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { shippedLibrary } from '../../rulebook/index.ts';
import { readSheetText } from '../index.ts';
import type { PrintedProtocol } from '../testing/sheet-forms.ts';
import { longRows } from './wide-rows.ts';

const library = shippedLibrary();
const protocols = readFileSync('test/data/protocols-2016-2018.jsonl', 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as PrintedProtocol)
  .filter((one) => one.competition === 'c02' && one.segment === 'short');

/** One row per skater, in two ways to name the columns. */
function wide(spelling: 'Element 1' | 'E1_'): string {
  const named = (name: string, no: number): string =>
    spelling === 'E1_' ? `E${no}_${name}` : `${name === 'Code' ? 'Element' : name} ${no}`;
  const count = Math.max(...protocols.map((one) => one.elements.length));
  const numbers = Array.from({ length: count }, (_, i) => i + 1);
  const fields = ['Code', 'Half', 'BV', 'GOE', 'Score'];
  const head = numbers.flatMap((no) =>
    fields.map((name) => (name === 'Code' && spelling === 'E1_' ? `E${no}` : named(name, no))),
  );
  const rows = protocols.map((one) => [
    one.rank,
    one.skater,
    one.category,
    one.segment,
    one.season,
    ...numbers.flatMap((no) => {
      const element = one.elements[no - 1];
      return element === undefined
        ? fields.map(() => '')
        : [element.code, element.half ? 'x' : '', element.base, element.goe, element.score];
    }),
    one.tes,
    one.pcs,
    one.total,
  ]);
  return [['Rank', 'Skater', 'Category', 'Segment', 'Season', ...head, 'TES', 'PCS', 'Total'], ...rows]
    .map((row) => row.join(','))
    .join('\n');
}

describe('a table with one row per skater', () => {
  it.each(['Element 1', 'E1_'] as const)('is read element by element (%s)', (spelling) => {
    const sheets = [...readSheetText(wide(spelling), { library })].flatMap((item) =>
      'sheet' in item ? [item.sheet] : [],
    );
    expect(sheets).toHaveLength(protocols.length);
    sheets.forEach(({ protocol }, i) => {
      const truth = protocols[i];
      expect(protocol).toMatchObject({ skater: truth?.skater, rank: truth?.rank, tes: truth?.tes, pcs: truth?.pcs });
      expect(protocol.elements.map(({ base, goe, score, half }) => ({ base, goe, score, half }))).toEqual(
        truth?.elements.map(({ base, goe, score, half }) => ({ base, goe, score, half })),
      );
    });
  });

  it('is one only where a code repeats for three elements or more', () => {
    expect(longRows(['Skater', 'Element', 'J1', 'J2', 'J3', 'J4'], [])).toBeNull();
    expect(longRows(['Skater', 'Element 1', 'Element 2'], [])).toBeNull();
    expect(longRows(['Skater', 'E1', 'E1 J1', 'J2 E1', 'E2', 'E3'], [['Wren', '2A', '1', '2', '', '']])).toEqual([
      ['Skater', 'no', 'code', 'J1', 'J2'],
      ['Wren', '1', '2A', '1', '2'],
    ]);
  });
});
