import type { Token, TokenAlternative } from '../token.ts';
import { type Alphabet, type GlyphReading, learnAlphabet } from './alphabet.ts';
import { type Component, componentsOf } from './components.ts';
import { type Glyph, glyphsOf } from './glyphs.ts';
import type { Grey } from './grey.ts';

/** A word as text recognition gives it, in pixels of the picture. Confidences 0..1. */
export interface ReadWord {
  readonly text: string;
  readonly confidence: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly symbols: readonly {
    readonly text: string;
    readonly confidence: number;
    readonly x0: number;
    readonly x1: number;
  }[];
}

/** A word with its ink and the characters that recognition saw there, cut at wide gaps. */
interface InkWord {
  readonly glyphs: readonly Glyph[];
  /** One entry a glyph where they can be told apart one by one, else null. */
  readonly symbols: ReadWord['symbols'] | null;
  readonly text: string;
  readonly confidence: number;
}

/**
 * Words of a picture as tokens: what recognition read, corrected by the sheet's own alphabet wherever
 * ink and characters match one by one. Every token carries its confidence and its rival readings.
 */
export function tokensOfPicture(picture: Grey, words: readonly ReadWord[], page: number): Token[] {
  const size = figureHeight(words);
  const grid = inkGrid(componentsOf(picture), size);
  const inked = words.flatMap((word) => inkWords(picture, word, grid(word), size));
  const alphabet = learnAlphabet(
    inked.flatMap((word) =>
      word.symbols === null
        ? []
        : word.glyphs.flatMap((glyph, i) => {
            const symbol = word.symbols?.[i];
            return symbol === undefined
              ? []
              : [{ glyph, text: symbol.text === '|' ? '1' : symbol.text, weight: symbol.confidence ** 2 }];
          }),
    ),
  );
  return inked.map((word) => tokenOf(word, alphabet, page));
}

/** Median height of words that are figures. */
function figureHeight(words: readonly ReadWord[]): number {
  const heights = words
    .filter((word) => /\d/.test(word.text) && word.text.length <= 6)
    .map((word) => word.y1 - word.y0)
    .sort((a, b) => a - b);
  return heights[Math.floor(heights.length / 2)] ?? 30;
}

/** Looks up the ink whose middle lies within a word's box. */
function inkGrid(components: readonly Component[], size: number): (word: ReadWord) => Component[] {
  const cell = Math.max(8, 2 * size);
  const rows = new Map<number, Component[]>();
  for (const component of components) {
    if (component.y1 - component.y0 > 2.5 * size || component.x1 - component.x0 > 6 * size) continue;
    const key = Math.floor((component.y0 + component.y1) / 2 / cell);
    rows.set(key, [...(rows.get(key) ?? []), component]);
  }
  return (word) => {
    const found: Component[] = [];
    for (let key = Math.floor(word.y0 / cell) - 1; key <= Math.floor(word.y1 / cell) + 1; key += 1) {
      for (const piece of rows.get(key) ?? []) {
        const [x, y] = [(piece.x0 + piece.x1) / 2, (piece.y0 + piece.y1) / 2];
        if (x >= word.x0 - 1 && x <= word.x1 + 1 && y >= word.y0 - 2 && y <= word.y1 + 2) found.push(piece);
      }
    }
    return found;
  };
}

/** Gap between glyphs, in figure heights, that separates words. */
const WORD_GAP = 0.42;

function inkWords(picture: Grey, word: ReadWord, pieces: readonly Component[], size: number): InkWord[] {
  if (pieces.length === 0) return [];
  const glyphs = glyphsOf(picture, pieces, size);
  const groups: Glyph[][] = [];
  for (const glyph of glyphs) {
    const last = groups.at(-1);
    const before = last?.at(-1);
    if (last === undefined || before === undefined || glyph.x0 - before.x1 > WORD_GAP * size) groups.push([glyph]);
    else last.push(glyph);
  }
  return groups.map((group) => inkWord(group, word, groups.length === 1));
}

function inkWord(glyphs: readonly Glyph[], word: ReadWord, whole: boolean): InkWord {
  const [first, last] = [glyphs[0], glyphs.at(-1)];
  const [left, right] = [first?.x0 ?? word.x0, last?.x1 ?? word.x1];
  const symbols = word.symbols.filter((symbol) => {
    const middle = (symbol.x0 + symbol.x1) / 2;
    return whole || (middle >= left - 1 && middle <= right + 1);
  });
  const matched = symbols.length === glyphs.length && symbols.every((symbol) => Array.from(symbol.text).length === 1);
  return {
    glyphs,
    symbols: matched ? symbols : null,
    text: symbols.map((symbol) => symbol.text).join(''),
    confidence: Math.min(...symbols.map((symbol) => symbol.confidence), word.confidence, 1),
  };
}

/** Words whose ink could not be told apart glyph by glyph are read but never taken on trust. */
const UNMATCHED_TRUST = 0.6;

function tokenOf(word: InkWord, alphabet: Alphabet, page: number): Token {
  const readings = asFigure(word.glyphs.map((glyph) => alphabet.read(glyph)));
  const own = readings.map((reading) => reading[0]?.text ?? '?').join('');
  const ownConfidence = Math.min(...readings.map((reading) => reading[0]?.confidence ?? 0));
  const agreed = own === word.text;
  const useOwn = ownConfidence > (word.symbols === null ? 0.5 : 0.4);
  const text = useOwn || agreed ? own : word.text;
  const confidence = agreed
    ? Math.max(ownConfidence, Math.min(word.confidence, 0.9))
    : useOwn
      ? ownConfidence * (word.symbols === null ? 0.9 : 1)
      : Math.min(UNMATCHED_TRUST, word.confidence);
  const alternatives = rivals(readings, text, word.text);
  const box = boxOf(word.glyphs);
  return {
    text,
    ...box,
    page,
    confidence: Math.min(0.99, confidence),
    ...(alternatives.length === 0 ? {} : { alternatives }),
  };
}

const FIGURE_SIGN = /^[0-9.-]$/;

/**
 * A word most of whose glyphs look like figures is a figure: letters that look alike (`o`, `l`, `S`)
 * then do not compete with 0, 1, 5.
 */
function asFigure(readings: readonly (readonly GlyphReading[])[]): readonly (readonly GlyphReading[])[] {
  const share = (reading: readonly GlyphReading[]): number =>
    reading.reduce((sum, { text, confidence }) => sum + (FIGURE_SIGN.test(text) ? confidence : 0), 0);
  const shares = readings.map(share);
  const mean = shares.reduce((a, b) => a + b, 0) / Math.max(1, shares.length);
  if (mean < 0.5 || shares.some((value) => value < 0.15)) return readings;
  return readings.map((reading, i) => {
    const scale = Math.min(1, (shares[i] ?? 0) + 0.5) / Math.max(shares[i] ?? 0, 1e-6);
    return reading
      .filter(({ text }) => FIGURE_SIGN.test(text))
      .map(({ text, confidence }) => ({ text, confidence: confidence * scale }));
  });
}

/** The other reading of the whole word, then words with one glyph read otherwise. */
function rivals(readings: readonly (readonly GlyphReading[])[], text: string, recognised: string): TokenAlternative[] {
  const found = new Map<string, number>();
  if (recognised !== text && recognised !== '') found.set(recognised, 0.3);
  const characters = Array.from(text);
  if (characters.length === readings.length) {
    readings.forEach((reading, i) => {
      for (const { text: other, confidence } of reading.slice(1)) {
        const rival = characters.with(i, other).join('');
        if (rival !== text && confidence > 0.02) found.set(rival, Math.max(found.get(rival) ?? 0, confidence));
      }
    });
  }
  return [...found]
    .map(([rival, confidence]) => ({ text: rival, confidence }))
    .sort((a, b) => b.confidence - a.confidence)
    .slice(0, 6);
}

function boxOf(glyphs: readonly Glyph[]): { x: number; y: number; width: number; height: number } {
  const x = Math.min(...glyphs.map((glyph) => glyph.x0));
  const y = Math.min(...glyphs.map((glyph) => glyph.y0));
  return {
    x,
    y,
    width: Math.max(...glyphs.map((glyph) => glyph.x1)) - x,
    height: Math.max(...glyphs.map((glyph) => glyph.y1)) - y,
  };
}
