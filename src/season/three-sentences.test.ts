import { describe, expect, it } from 'vitest';
import { threeSentences } from './index.ts';

const event = (date: string, ...codes: string[]) => ({ date, codes });
const run = (at: string, ...codes: string[]) => ({ at, exceptions: codes.map((code) => ({ code, what: 'short' })) });

describe('three sentences on a skater', () => {
  it('say nothing before there is something to say', () => {
    expect(threeSentences([], [])).toEqual({
      safer: 'Nothing yet; it takes three events.',
      slipped: 'Nothing lately.',
      fresh: 'Nothing to compare with yet.',
    });
  });

  it('name what had no call in three events or more, whatever the level', () => {
    const events = [
      event('2025-09-01', '2Lz', 'FSSp3'),
      event('2025-10-01', '2Lze', 'FSSp2'),
      event('2025-11-01', '2Lz', 'FSSp4'),
    ];
    expect(threeSentences(events, []).safer).toBe('FSSp: no call in 3 events.');
  });

  it('count exceptions of run-throughs before calls of events, and only the last ten', () => {
    const old = Array.from({ length: 5 }, (_, i) => run(`2025-08-0${i + 1}`, '2F'));
    const late = Array.from({ length: 10 }, (_, i) => run(`2025-10-${String(i + 10)}`, ...(i % 3 === 0 ? ['2A'] : [])));
    expect(threeSentences([], [...late, ...old]).slipped).toBe(
      '2A: other than planned in 4 of the last 10 run-throughs.',
    );
  });

  it('name what stood on a sheet for the first time', () => {
    const events = [event('2025-11-01', '2A', '3S'), event('2025-09-01', '2A')];
    expect(threeSentences(events, []).fresh).toBe('3S, for the first time at an event.');
  });

  it('leave an unreadable code out', () => {
    expect(threeSentences([event('2025-11-01', '??'), event('2025-09-01', '2A')], []).fresh).toBe(
      'The same elements as before.',
    );
  });
});
