import { readFileSync } from 'node:fs';

import { describe, expect, it } from 'vitest';

import { shippedLibrary } from '../rulebook/index.ts';
import { readSheetText } from './index.ts';
import { compareSheet } from './testing/compare.ts';
import { isPinned } from './testing/held.ts';
import { dice } from './testing/invented.ts';
import { printSheets, SHEET_FORMS, type PrintedProtocol, type SheetForm } from './testing/sheet-forms.ts';

const library = shippedLibrary();
const openData = readFileSync('test/data/protocols-2016-2018.jsonl', 'utf8').trim().split('\n');

type Dice = (sides: number) => number;

/** Ways to spoil a text; null where the form has nothing to spoil in this way. */
const SPOILS: Readonly<Record<string, (text: string, roll: Dice, form: SheetForm) => string | null>> = {
  'a digit lost': (text, roll) => {
    const digits = [...text.matchAll(/\d/g)].map((match) => match.index);
    const at = digits[roll(digits.length)] ?? 0;
    return text.slice(0, at) + text.slice(at + 1);
  },
  'two digits of a figure swapped': (text, roll) => {
    const places = [...text.matchAll(/\d(?=[.,]?\d)/g)].map((match) => match.index);
    const at = places[roll(places.length)] ?? 0;
    const to = /\d/.test(text[at + 1] ?? '') ? at + 1 : at + 2;
    return text.slice(0, at) + (text[to] ?? '') + text.slice(at + 1, to) + (text[at] ?? '') + text.slice(to + 1);
  },
  'two rows swapped': (text, roll) => {
    const lines = text.split('\n');
    const rows = lines.flatMap((line, i) => (/\d[.,]\d\d/.test(line) ? [i] : []));
    const first = roll(rows.length - 1);
    const [a, b] = [rows[first] ?? 0, rows[first + 1] ?? 0];
    return lines.map((line, i) => (i === a ? lines[b] : i === b ? lines[a] : line)).join('\n');
  },
  'a row lost': (text, roll) => {
    const lines = text.split('\n');
    lines.splice(roll(lines.length), 1);
    return lines.join('\n');
  },
  'a column lost': (text, roll, form) => {
    const separator = { tab: '\t', csv: ',', semicolon: ';' }[form.separator as 'tab'] as string | undefined;
    if (separator === undefined) return null;
    const column = roll(12);
    return text
      .split('\n')
      .map((line) => {
        const cells = line.split(separator);
        if (cells.length < 12 || !/(Sp|Sq|\d[TSLFA])/.test(line)) return line;
        cells.splice(column, 1);
        return cells.join(separator);
      })
      .join('\n');
  },
  'the end cut off': (text, roll) => {
    const lines = text.split('\n');
    return lines.slice(0, 2 + roll(lines.length - 3)).join('\n');
  },
};

describe.each(Object.entries(SPOILS))('a sheet with %s', (name, spoil) => {
  it('has no silent error among the figures that the arithmetic holds', () => {
    const roll = dice(name.length * 7919);
    const silent: string[] = [];
    let spoilt = 0;
    for (let i = 0; i < 150; i++) {
      const form = SHEET_FORMS[roll(SHEET_FORMS.length)];
      const truth = JSON.parse(openData[roll(openData.length)] ?? '') as PrintedProtocol;
      if (form === undefined) continue;
      const text = spoil(printSheets([{ ...truth, skater: 'Odalie Halcott' }], form), roll, form);
      if (text === null) continue;
      spoilt++;
      const [reading] = [...readSheetText(text, { library })].flatMap((item) => ('sheet' in item ? [item.sheet] : []));
      if (reading === undefined) continue;
      const compared = compareSheet({ ...truth, skater: 'Odalie Halcott' }, reading, form);
      silent.push(
        ...compared.silent
          .filter((message) => isPinned(message, reading, truth.elements, library))
          .map((message) => `${form.name}, ${truth.id}: ${message}`),
      );
    }
    expect(spoilt).toBeGreaterThan(20);
    expect(silent).toEqual([]);
  });
});
