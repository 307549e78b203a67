import { describe, expect, it } from 'vitest';
import { tokensOfWords } from './glue.ts';
import type { PdfTextContent } from './library.ts';
import { type Word, wordsOfPage } from './runs.ts';

const VIEW = { width: 600, height: 800, transform: [1, 0, 0, -1, 0, 800] };

/** Runs of a page whose text runs at an angle, in PDF's own frame (y upwards). */
function content(runs: readonly { text: string; x: number; y: number; size?: number }[], degrees = 0): PdfTextContent {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return {
    items: runs.map(({ text, x, y, size = 10 }) => ({
      str: text,
      transform: [size * cos, size * sin, -size * sin, size * cos, x * cos - y * sin, x * sin + y * cos],
      width: text.length * size * 0.5,
      height: size,
      fontName: 'f',
    })),
    styles: { f: { fontFamily: 'monospace' } },
  };
}

const texts = (page: PdfTextContent): string[] =>
  tokensOfWords(wordsOfPage(page, VIEW).words, 1).map((token) => token.text);

const ROWS = [
  { text: '1 3Lz', x: 50, y: 700 },
  { text: '<', x: 75, y: 703, size: 7 },
  { text: '5.90', x: 200, y: 700 },
  { text: '2', x: 50, y: 680 },
];

describe('words of a page', () => {
  it.each([0, 2, -3, 90, 180, 270, 92])('come out the same for text turned by %i degrees', (degrees) => {
    expect(texts(content(ROWS, degrees))).toEqual(['1', '3Lz<', '5.90', '2']);
  });

  it('leave out text across the page, and say so', () => {
    const across = content([{ text: 'DRAFT', x: 300, y: 300 }], 45);
    const both = { ...across, items: [...content(ROWS).items, ...across.items] };
    expect(wordsOfPage(both, VIEW).turned).toBe(1);
    expect(texts(both)).not.toContain('DRAFT');
  });

  it('are not glued over a blank or a gap', () => {
    const word = (text: string, x: number, blankAfter = false): Word => ({
      text,
      x,
      y: 10,
      width: 5,
      height: 10,
      blankAfter,
    });
    expect(tokensOfWords([word('1', 0), word('2', 5.5)], 1).map((t) => t.text)).toEqual(['12']);
    expect(tokensOfWords([word('1', 0, true), word('2', 5.5)], 1).map((t) => t.text)).toEqual(['1', '2']);
    expect(tokensOfWords([word('1', 0), word('2', 8)], 1).map((t) => t.text)).toEqual(['1', '2']);
  });

  it('printed twice for bold count once', () => {
    const word = { text: '7.25', x: 0, y: 10, width: 20, height: 10, blankAfter: false };
    expect(tokensOfWords([word, { ...word, x: 0.3 }], 1)).toHaveLength(1);
  });

  it('survive figures that are not numbers', () => {
    const broken = content([
      { text: 'x', x: NaN, y: 1 },
      { text: 'y', x: 1, y: 1 },
    ]);
    expect(texts(broken)).toEqual(['y']);
  });
});
