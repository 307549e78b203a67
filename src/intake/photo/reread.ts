import type { Token, TokenAlternative } from '../token.ts';
import { type Alphabet, type GlyphReading, learnAlphabet } from './alphabet.ts';
import { withRepairedCodes } from './codes.ts';
import { componentsOf, unjoined } from './components.ts';
import { type Glyph, glyphsOf, splitGlyphs } from './glyphs.ts';
import type { Grey } from './grey.ts';
import { figureHeight, type InkRun, segmented } from './segment.ts';
import { withWholeDecimals } from './split-decimals.ts';
import { type Strip, stripOf } from './strip.ts';
import { withUnreadableWords } from './unreadable.ts';

/** A character as text recognition saw it, in pixels of the picture it was given. Confidence 0..1. */
export interface ReadSymbol {
  readonly text: string;
  readonly confidence: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A word's ink and the characters that recognition saw there. */
interface InkWord {
  /** The ink as it lies, uncut. */
  readonly pieces: readonly Glyph[];
  /** The same, glyphs that touch cut apart where recognition saw more of them. */
  readonly glyphs: readonly Glyph[];
  /** One entry a glyph where they can be told apart one by one, else null. */
  readonly symbols: readonly ReadSymbol[] | null;
  readonly text: string;
  readonly confidence: number;
  readonly run: InkRun;
}

/** Recognises the characters of a picture of ordinary lines of text. */
export type ReadSymbols = (picture: Grey) => Promise<readonly ReadSymbol[]>;

/**
 * Words of a picture as tokens. The ink is cut into words by its gaps, set anew as plain lines for text
 * recognition, and what that read is corrected by the sheet's own alphabet wherever ink and characters
 * match one by one. Every token carries its confidence and its rival readings.
 */
export async function tokensOfPicture(picture: Grey, read: ReadSymbols, page: number): Promise<Token[]> {
  const ink = componentsOf(picture);
  const parts = segmented(unjoined(picture, ink, figureHeight(ink)));
  if (parts.runs.length === 0) return [];
  const strip = stripOf(picture, parts);
  const symbols = symbolsByRun(await read(strip.picture), strip);
  const words = parts.runs.map((run, i) => inkWord(picture, run, symbols[i] ?? [], parts.size));
  const alphabet = learnAlphabet(words.flatMap(samplesOf));
  const tokens = words.map((word) => tokenOf(word, alphabet, page));
  return withUnreadableWords(withRepairedCodes(withWholeDecimals(tokens)));
}

const samplesOf = (word: InkWord): { glyph: Glyph; text: string; weight: number }[] =>
  word.glyphs.flatMap((glyph, i) => {
    const symbol = word.symbols?.[i];
    return symbol === undefined
      ? []
      : [{ glyph, text: symbol.text === '|' ? '1' : symbol.text, weight: symbol.confidence ** 2 }];
  });

/** Each character goes to the word within whose place on the strip its middle lies. */
function symbolsByRun(symbols: readonly ReadSymbol[], strip: Strip): ReadSymbol[][] {
  const found: ReadSymbol[][] = strip.places.map(() => []);
  const rows = new Map<number, number[]>();
  strip.places.forEach((place, i) => rows.set(place.y0, [...(rows.get(place.y0) ?? []), i]));
  const pitch = (strip.places[0]?.y1 ?? 1) - (strip.places[0]?.y0 ?? 0);
  for (const symbol of symbols) {
    const x = (symbol.x0 + symbol.x1) / 2;
    const y = (symbol.y0 + symbol.y1) / 2;
    const near = rows.get(Math.floor(y / pitch) * pitch) ?? [];
    const at = near.find((i) => x >= (strip.places[i]?.x0 ?? 0) - 4 && x <= (strip.places[i]?.x1 ?? 0) + 4);
    if (at !== undefined) found[at]?.push(symbol);
  }
  for (const list of found) list.sort((a, b) => a.x0 - b.x0);
  return found;
}

function inkWord(picture: Grey, run: InkRun, symbols: readonly ReadSymbol[], size: number): InkWord {
  const pieces = glyphsOf(picture, run.pieces, size, run.bottom);
  const single = symbols.every((symbol) => Array.from(symbol.text).length === 1);
  const glyphs =
    (single && pieces.length < symbols.length ? splitGlyphs(picture, pieces, symbols.length, size) : null) ?? pieces;
  return {
    pieces,
    glyphs,
    symbols: single && symbols.length === glyphs.length ? symbols : null,
    text: symbols.map((symbol) => symbol.text).join(''),
    confidence: symbols.length === 0 ? 0 : Math.min(...symbols.map((symbol) => symbol.confidence)),
    run,
  };
}

/** Words whose ink and characters differ in number are read but never taken on trust. */
const UNMATCHED_TRUST = 0.5;
/** ... unless every piece of ink is a character of the sheet's own print with this confidence. */
const OWN_PRINT = 0.85;
const OWN_PRINT_TRUST = 0.9;

function tokenOf(word: InkWord, alphabet: Alphabet, page: number): Token {
  const uncut = ownReading(word.pieces, alphabet);
  const isOwnPrint = word.pieces.length !== lengthOf(word.text) && word.text !== '' && uncut.confidence >= OWN_PRINT;
  const own = isOwnPrint ? uncut : ownReading(word.glyphs, alphabet);
  const { readings } = own;
  const { text, confidence } = isOwnPrint
    ? { text: own.text, confidence: Math.min(own.confidence, OWN_PRINT_TRUST) }
    : chosen(word, own.text, own.confidence);
  const alternatives = rivals(readings, text, word.text === text ? own.text : word.text);
  return {
    text,
    ...boxOf(word),
    page,
    confidence: Math.min(0.99, confidence),
    ...(alternatives.length === 0 ? {} : { alternatives }),
  };
}

const lengthOf = (text: string): number => Array.from(text).length;

interface OwnReading {
  readonly readings: readonly (readonly GlyphReading[])[];
  readonly text: string;
  /** That of its least certain glyph. */
  readonly confidence: number;
}

/** What the sheet's own alphabet says. */
function ownReading(glyphs: readonly Glyph[], alphabet: Alphabet): OwnReading {
  const readings = asFigure(glyphs.map((glyph) => alphabet.read(glyph)));
  return {
    readings,
    text: readings.map((reading) => reading[0]?.text ?? '?').join(''),
    confidence: Math.min(...readings.map((reading) => reading[0]?.confidence ?? 0)),
  };
}

/** Between what recognition read and what the sheet's own alphabet says. */
function chosen(word: InkWord, own: string, ownConfidence: number): { text: string; confidence: number } {
  const recognised = word.text.replace(/[\u2012-\u2015\u2212]/g, '-');
  if (own === recognised) return { text: own, confidence: Math.max(ownConfidence, Math.min(word.confidence, 0.9)) };
  if (word.symbols !== null) {
    return ownConfidence > 0.4
      ? { text: own, confidence: ownConfidence }
      : { text: recognised, confidence: Math.min(UNMATCHED_TRUST, word.confidence) };
  }
  // Recognition missed a glyph: the ink knows better; it saw more than there is ink for: glyphs touch.
  const missed = lengthOf(recognised) < word.glyphs.length && ownConfidence > 0.5;
  return { text: missed || recognised === '' ? own : recognised, confidence: UNMATCHED_TRUST };
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

/** As wide as its ink, as high as the line's figures: a lone stroke stands where the figures stand. */
function boxOf({ glyphs, run }: InkWord): { x: number; y: number; width: number; height: number } {
  const x = Math.min(...glyphs.map((glyph) => glyph.x0));
  return { x, y: run.top, width: Math.max(...glyphs.map((glyph) => glyph.x1)) - x, height: run.bottom - run.top };
}
