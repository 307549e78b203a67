import { describe, expect, it } from 'vitest';
import { clock } from './index.ts';

describe('a time in the program', () => {
  it.each([
    [0, '0:00'],
    [9.4, '0:09'],
    [59.4, '0:59'],
    [59.6, '1:00'],
    [105, '1:45'],
    [119.5, '2:00'],
    [240, '4:00'],
  ])('%d seconds are %s', (seconds, text) => expect(clock(seconds)).toBe(text));
});
