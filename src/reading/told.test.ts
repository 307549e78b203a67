import { describe, expect, it } from 'vitest';
import { letterLines } from './letter-words.ts';
import { readTold, toldOf } from './told.ts';
import { five, protocolOf, readForm, sheetOf } from './testing/readings.ts';

const said = (code: string, told: object) => {
  const reading = readForm(sheetOf([{ code, marks: five(0) }]), { told: [{ no: 1, text: '', ...told }] });
  const [entry] = reading.feedback;
  if (entry === undefined) throw new Error('no entry');
  return { reading, entry, words: letterLines(entry, 200).join('\n') };
};

describe('what the panel told', () => {
  it('narrows the turns, what follows from them, and the questions that are left', () => {
    const plain = readForm(sheetOf([{ code: 'StSq2 YYY', marks: five(0) }]));
    expect(plain.feedback[0]?.turns).toEqual({ min: 7, max: 8 });
    expect(plain.questions.join(' ')).toContain('how many turns');
    const { reading, entry, words } = said('StSq2 YYY', { turns: 8, text: 'The second loop did not count.' });
    expect(entry.turns).toEqual({ min: 8, max: 8 });
    expect(entry.told).toEqual([{ no: 1, turns: 8, text: 'The second loop did not count.', used: true }]);
    expect(words).toContain('8 turns were counted. One more counted turn brings level 3.');
    expect(words).toContain(
      'Told by the panel: 8 turns counted. “The second loop did not count.” Used as evidence here.',
    );
    expect(reading.questions.join(' ')).not.toContain('how many turns');
    expect(reading.warnings.join(' ')).not.toContain('panel told');
  });

  it('that does not fit is left out and said', () => {
    const { reading, entry, words } = said('StSq2 YYY', { turns: 12 });
    expect(entry.turns).toEqual({ min: 7, max: 8 });
    expect(words).toContain('It does not fit level and letters, so it is left out.');
    expect(reading.warnings.join(' ')).toContain('What the panel told about element 1 does not fit');
  });

  it('names the position behind a V that has no letters, and never another one than the letters', () => {
    expect(said('CCoSp3V', { missingPosition: 'sit' }).entry.missingPosition).toBe('sit');
    expect(said('CCoSp3V', { missingPosition: 'sit' }).words).toContain(
      'The sit position was missing, as the panel told.',
    );
    const other = said('CCoSp3V NU', { missingPosition: 'sit' });
    expect(other.entry.missingPosition).toBe('upright');
    expect(other.entry.told[0]?.used).toBe(false);
  });

  it('as words alone stands beside the letters and narrows nothing', () => {
    const { entry, reading, words } = said('StSq2 YYY', { text: 'Deeper edges.' });
    expect(entry.turns).toEqual({ min: 7, max: 8 });
    expect(words).toContain('Told by the panel: “Deeper edges.”');
    expect(reading.warnings.join(' ')).not.toContain('panel told');
  });

  it('about an element without level or letters is said to narrow nothing', () => {
    const reading = readForm(sheetOf([{ code: '2A', marks: five(0) }]), { told: [{ no: 1, text: '', turns: 4 }] });
    expect(reading.warnings.join(' ')).toContain('What the panel told about element 1 narrows nothing');
  });
});

describe('the form of what was told', () => {
  it('belongs to the protocol that it names', () => {
    const sheet = readTold({ id: 'a', told: [{ no: 5, turns: { min: 7, max: 8 } }] });
    if (!sheet.ok) throw new Error(sheet.error.found);
    const of = (id: string) => toldOf([sheet.value], protocolOf(sheetOf([{ code: '2A' }], { id })));
    expect(of('a')).toEqual([{ no: 5, text: '', turns: { min: 7, max: 8 }, missingPosition: null }]);
    expect(of('b')).toEqual([]);
  });

  it.each([
    [{ told: [{ no: 5, turns: 13 }] }, 'told[0].turns'],
    [{ told: [{ no: 5, missingPosition: 'layback' }] }, 'told[0].missingPosition'],
    [{ told: [{ turns: 3 }] }, 'told[0].no'],
    [{}, 'told'],
  ])('%j is refused with its place', (value, at) => {
    const read = readTold(value);
    expect(read.ok ? null : read.error.at).toBe(at);
  });
});
