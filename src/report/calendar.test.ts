import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarFile } from './index.ts';

const day = { id: 'e1', from: '2026-12-31', to: '2026-12-31', summary: 'Alder Rink' };

describe('a calendar file', () => {
  it('ends a one-day event on the next day, over the turn of the year', () => {
    expect(calendarFile([day], '2026-11-25T10:00:00.000Z')).toContain(
      'DTSTAMP:20261125T100000Z\r\nDTSTART;VALUE=DATE:20261231\r\nDTEND;VALUE=DATE:20270101\r\n',
    );
  });

  it('has lines of at most 75 octets, and any text comes back when they are joined (RFC 5545, 3.1 and 3.3.11)', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), (summary) => {
        fc.pre(!/[\r\u0000]/.test(summary));
        const file = calendarFile([{ ...day, summary }], '2026-11-25T10:00:00Z');
        for (const line of file.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        const unfolded = file.replaceAll('\r\n ', '');
        const read = /SUMMARY:([^]*?)\r\nEND:VEVENT/.exec(unfolded)?.[1] ?? '';
        expect(read.replace(/\\([\\;,n])/g, (_, sign: string) => (sign === 'n' ? '\n' : sign))).toBe(summary);
      }),
    );
  });
});
