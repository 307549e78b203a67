import { describe, expect, it } from 'vitest';
import { printReading, readingForm } from '../../src/reading/index.ts';
import { five, protocolOf, readForm, sheetOf } from '../../src/reading/testing/readings.ts';
import { openProtocols } from '../support/open-data.ts';

// The practice note: no adjectives of worth, no ranks and chances, nothing that names a loss.
const FORBIDDEN =
  /\b(lost|lose|loss|losing|fail(ed|ure|s)?|only|weak|lazy|bad|poor|wrong|mistakes?|errors?|rank(ed|s)?|chances?|probab\w*|percent|medals?|podium|beat(en)?|worse|worst|reliab\w*|unfortunately|disappoint\w*)\b|!|%/i;
const BODY = /\b(weight|lean(er)?|light(er)?|diet|height|body shape|injur\w*|tall|thin)\b/i;

const everyCall = sheetOf(
  [
    { code: '3Lz<', marks: five(-3) },
    { code: '3F!', marks: five(-1) },
    { code: '2A', info: 'F', marks: five(-5) },
    { code: '3T*', marks: [] },
    { code: '3Lo+REP', marks: five(0) },
    { code: 'CCoSp2V', feedback: 'NS', marks: five(-1) },
    { code: 'LSpB', marks: five(-2) },
    { code: 'StSq1', feedback: 'NNN', marks: five(-1) },
    { code: 'ChSq1', marks: five(-1) },
  ],
  { skater: 'Wren', deductions: -3, competition: 'Lake Cup', date: '2023-11-11' },
);
const history = [protocolOf({ ...everyCall, id: 'h', date: '2023-09-01' })];
const readings = [
  ...openProtocols()
    .filter((_, i) => i % 6 === 0)
    .map((form) => readForm(form)),
  readForm(everyCall),
  readForm(everyCall, { history }),
];

describe('what the skater reads', () => {
  const pages = readings.map((reading) => printReading(reading, { voice: 'skater' }));

  it('has none of the words that hurt', () => {
    for (const page of pages) {
      expect(FORBIDDEN.exec(page)?.[0]).toBeUndefined();
      expect(BODY.exec(page)?.[0]).toBeUndefined();
    }
  });

  it('asks for at most two things, never two for one jump, as still to win', () => {
    for (const reading of readings) {
      const { advice } = readingForm(reading, 'skater');
      expect(advice.length).toBeLessThanOrEqual(2);
      for (const one of advice) expect(one.text).toMatch(/Still to win: about [\d.]+ points?( or more)?\.$/);
      const named = advice.map((one) => /^The ([^.]*)\./.exec(one.text)?.[1]);
      expect(new Set(named).size).toBe(named.length);
      for (const one of advice) expect(FORBIDDEN.exec(`${one.text} ${one.beside.join(' ')}`)?.[0]).toBeUndefined();
    }
  });

  it('says what went up before what is still to win, and score and place last', () => {
    const page = printReading(readForm(openProtocols()[2] ?? {}), { voice: 'skater' });
    const places = ['What the judges liked', 'Still to win', 'How we train it', 'Score and place are not in our hands'];
    const found = places.map((text) => page.indexOf(text));
    expect(found.every((at) => at >= 0)).toBe(true);
    expect(found).toEqual([...found].sort((a, b) => a - b));
  });

  it('shows nothing of the field and of the critique', () => {
    const form = readingForm(readForm(everyCall), 'skater');
    expect(form).not.toHaveProperty('field');
    expect(form).not.toHaveProperty('questions');
  });
});

describe('what the coach reads', () => {
  const pages = readings.map((reading) => printReading(reading, { voice: 'coach' }));

  it('fits 80 columns and has no colour where none was asked for', () => {
    for (const line of pages.join('\n').split('\n')) {
      expect(Array.from(line).length, line).toBeLessThanOrEqual(80);
      expect(line).not.toContain('\u001b');
    }
  });

  it('says once that judges do not publish reasons', () => {
    for (const page of pages) {
      const account = page.slice(0, page.indexOf('What to train'));
      expect(account.match(/Judges do not publish reasons for a grade\./g)).toHaveLength(1);
    }
  });

  it('calls the clean version room to grow, and reminds of the release', () => {
    const page = printReading(readForm(everyCall), { voice: 'coach' });
    expect(page).toContain('Room to grow, by cause');
    expect(page).not.toMatch(/\blost\b/i);
    expect(page.replace(/\s+/g, ' ')).toContain('nothing goes to skater or family until you release it');
  });

  it('signs differences with a real minus', () => {
    const page = printReading(readForm(everyCall), { voice: 'coach' });
    expect(page).toMatch(/−\d\.\d\d/);
    expect(page).not.toMatch(/(^|\s)-\d/m);
  });

  it('has colour only as a help', () => {
    const strip = (text: string) => text.replaceAll(new RegExp('\u001b\\[[0-9;]*m', 'g'), '');
    const reading = readForm(everyCall);
    const plain = printReading(reading, { voice: 'coach' });
    expect(strip(printReading(reading, { voice: 'coach', colour: true }))).toBe(plain);
  });
});
