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

  it('count an event once, however often the element stood in it', () => {
    const two = [event('2025-09-01', '3S', '3S'), event('2025-10-01', '3S', '3S')];
    expect(threeSentences(two, []).safer).toBe('Nothing yet; it takes three events.');
    expect(threeSentences([...two, event('2025-11-01', '3S', '3S+2T')], []).safer).toBe('3S: no call in 3 events.');
  });

  it('count a call once per event, and the events with it', () => {
    const called = [event('2025-09-01', '3S', '3S<'), event('2025-10-01', '3S<', '3S<')];
    const events = [...called, event('2025-11-01', '3S', '3S')];
    expect(threeSentences(events, []).slipped).toBe('3S: called in 2 of 3 events.');
    expect(threeSentences(events.slice(1), []).slipped).toBe('Nothing lately.');
  });

  it('take both segments of a competition for one event', () => {
    const days = ['2025-09-01', '2025-09-02', '2025-10-01', '2025-10-02'];
    const segments = days.map((date, i) => ({ ...event(date, '2A'), event: i < 2 ? 'autumn' : 'harvest' }));
    expect(threeSentences(segments, []).safer).toBe('Nothing yet; it takes three events.');
    const sameDay = ['2025-09-01', '2025-09-01', '2025-10-01'].map((date) => event(date, '2A'));
    expect(threeSentences(sameDay, []).safer).toBe('Nothing yet; it takes three events.');
  });

  it('count a run-through once, however much went otherwise in it', () => {
    expect(threeSentences([], [run('2025-10-01', '2A', '2A', '2A')]).slipped).toBe('Nothing lately.');
    expect(threeSentences([], [run('2025-10-01', '2A', '2A'), run('2025-10-02', '2A')]).slipped).toBe(
      '2A: other than planned in 2 of the last 2 run-throughs.',
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
