import { describe, expect, it } from 'vitest';
import { readingForm } from '../../src/reading/index.ts';
import { protocolOf, readForm, sumOf } from '../../src/reading/testing/readings.ts';
import type { ProtocolForm } from '../../src/scoring/index.ts';
import { openProtocols } from '../support/open-data.ts';

const cents = (points: number | null): number => Math.round((points ?? NaN) * 100);

describe('the 624 open protocols, read against the clean version', () => {
  const readings = openProtocols().map((form) => ({ form, reading: readForm(form) }));

  it('awarded is what was published', () => {
    for (const { form, reading } of readings)
      expect([reading.awarded.tes, reading.awarded.pcs, reading.awarded.total], form.id?.toString()).toEqual(
        [form.tes, form.pcs, form.total].map((points) => cents(points ?? null)),
      );
  });

  it('the ledger sums to the difference to the hundredth, also as printed numbers', () => {
    for (const { form, reading } of readings) {
      expect(sumOf(reading), form.id?.toString()).toBe(reading.difference);
      const { ledger, difference, awarded, reference } = readingForm(reading);
      expect(ledger.reduce((sum, entry) => sum + cents(entry.points), 0)).toBe(cents(difference));
      expect(cents(awarded.total) - cents(reference.total)).toBe(cents(difference));
    }
  });

  it('has at most one entry per element and cause, and no cause of a layout', () => {
    for (const { reading } of readings) {
      const keys = reading.ledger.map((entry) => `${entry.no ?? ''} ${entry.cause}`);
      expect(new Set(keys).size).toBe(keys.length);
      expect(keys.filter((key) => /content|second-half|components/.test(key))).toEqual([]);
    }
  });

  it('nothing is left out, nothing is found', () => {
    expect(readings.flatMap(({ reading }) => reading.warnings)).toEqual([]);
    expect(readings.flatMap(({ reading }) => reading.findings)).toEqual([]);
  });

  it('a called element never lacks the entry of its call, and advice falls', () => {
    for (const { form, reading } of readings) {
      const called = form.elements.flatMap((one) => (/<|\*/.test(one.code) ? [one.no] : []));
      const named = reading.ledger.flatMap((one) => (/rotation|no-value/.test(one.cause) ? [one.no] : []));
      for (const no of called) expect(named).toContain(no);
      const prices = reading.advice.map((one) => one.points);
      expect(prices).toEqual([...prices].sort((a, b) => b - a));
    }
  });
});

describe('against her usual, from earlier competitions', () => {
  const forms = openProtocols();
  const skaters = [...new Set(forms.map((form) => form.skater))];
  const programs = skaters.map((skater) => forms.filter((form) => form.skater === skater));
  const histories = programs.filter((list) => list.length > 3).slice(0, 25);

  it.each(histories.map((list): [string, ProtocolForm[]] => [list[0]?.skater ?? '', list]))('%s', (_skater, list) => {
    const history = list.map(protocolOf);
    for (const form of list) {
      const reading = readForm(form, { history });
      expect(reading.reference.kind).toBe('usual');
      expect(sumOf(reading)).toBe(reading.difference);
      expect(reading.awarded.total).toBe(cents(form.total ?? null));
    }
  });
});
