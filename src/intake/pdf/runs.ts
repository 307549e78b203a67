import type { PdfTextContent, PdfViewport } from './library.ts';

/** One word of a run of glyphs, in the frame in which the page's text runs to the right. */
export interface Word {
  text: string;
  x: number;
  /** Baseline. */
  y: number;
  width: number;
  /** Font size. */
  height: number;
  /** A blank character follows in the run: never glued to what comes next. */
  blankAfter: boolean;
}

/** A run as the library gives it, brought into the page's visible frame (y downwards). */
interface Run {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Direction of the text, radians clockwise from rightwards. */
  readonly angle: number;
  readonly monospaced: boolean;
}

/** Text that deviates less than this from the page's main direction belongs to it. */
const SAME_DIRECTION = (6 * Math.PI) / 180;

/**
 * The words of a page in reading frame: turned upright by the direction in which most characters run,
 * whatever the page's own rotation entry says. Text in another direction (a watermark, a heading set
 * on edge) is left out and counted in `turned`, since it would stand across the rows.
 */
export function wordsOfPage(content: PdfTextContent, viewport: PdfViewport): { words: Word[]; turned: number } {
  const runs = runsOf(content, viewport);
  const angle = mainDirection(runs);
  const upright = runs.filter((run) => turnBetween(run.angle, angle) < SAME_DIRECTION);
  const words: Word[] = [];
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  for (const run of upright) {
    splitRun(run, run.x * cos + run.y * sin, run.y * cos - run.x * sin, words);
  }
  if (angle !== 0) shiftToOrigin(words);
  return { words, turned: runs.length - upright.length };
}

function runsOf(content: PdfTextContent, viewport: PdfViewport): Run[] {
  const runs: Run[] = [];
  const [va = 1, vb = 0, vc = 0, vd = 1, ve = 0, vf = 0] = viewport.transform;
  for (const item of content.items) {
    if (!('str' in item) || item.str.trim() === '') continue;
    const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = item.transform;
    const height = Math.hypot(c, d);
    const direction = Math.atan2(vb * a + vd * b, va * a + vc * b);
    if (!Number.isFinite(e + f + item.width + height)) continue;
    runs.push({
      text: item.str,
      x: va * e + vc * f + ve,
      y: vb * e + vd * f + vf,
      width: item.width,
      height: height > 0 ? height : item.height,
      angle: Math.abs(direction) < 1e-4 ? 0 : direction,
      monospaced: content.styles[item.fontName]?.fontFamily === 'monospace',
    });
  }
  return runs;
}

/** Mean direction of the quarter turn that holds most characters. */
function mainDirection(runs: readonly Run[]): number {
  const quarter = Math.PI / 2;
  const weights = [0, 0, 0, 0];
  const quarterOf = (run: Run): number => ((Math.round(run.angle / quarter) % 4) + 4) % 4;
  for (const run of runs) weights[quarterOf(run)] = (weights[quarterOf(run)] ?? 0) + run.text.length;
  const main = weights.indexOf(Math.max(...weights));
  let sum = 0;
  let weight = 0;
  for (const run of runs) {
    const off = signedTurn(run.angle, main * quarter);
    if (Math.abs(off) >= SAME_DIRECTION * 1.5) continue;
    sum += off * run.text.length;
    weight += run.text.length;
  }
  const mean = weight === 0 ? 0 : sum / weight;
  return main * quarter + (Math.abs(mean) < 1e-3 ? 0 : mean);
}

const signedTurn = (a: number, b: number): number => Math.atan2(Math.sin(a - b), Math.cos(a - b));
const turnBetween = (a: number, b: number): number => Math.abs(signedTurn(a, b));

/** Turning about the origin may leave the page in negative coordinates. */
function shiftToOrigin(words: readonly Word[]): void {
  let left = Infinity;
  let top = Infinity;
  for (const word of words) {
    left = Math.min(left, word.x);
    top = Math.min(top, word.y - word.height);
  }
  for (const word of words) {
    word.x -= left;
    word.y -= top;
  }
}

/** Cut a run at its blanks; the library gives one width for the whole run, glyph widths are estimated. */
function splitRun(run: Run, x: number, y: number, into: Word[]): void {
  if (!/\s/u.test(run.text)) {
    into.push({ text: run.text, x, y, width: run.width, height: run.height, blankAfter: false });
    return;
  }
  let units = 0;
  for (const char of run.text) units += run.monospaced ? 1 : glyphUnits(char);
  const scale = units === 0 ? 0 : run.width / units;
  let at = x;
  let word: Word | null = null;
  for (const char of run.text) {
    const width = (run.monospaced ? 1 : glyphUnits(char)) * scale;
    if (char.trim() === '') {
      if (word !== null) word.blankAfter = true;
      word = null;
    } else if (word === null) {
      word = { text: char, x: at, y, width, height: run.height, blankAfter: false };
      into.push(word);
    } else {
      word.text += char;
      word.width += width;
    }
    at += width;
  }
}

/** Rough glyph widths of a common sans serif face in thousandths of the font size. */
function glyphUnits(char: string): number {
  if (char.trim() === '') return 278;
  if (/[.,:;!'|iljI]/.test(char)) return 260;
  if (/[-()[\]/frt]/.test(char)) return 330;
  if (/[mwMW@%]/.test(char)) return 850;
  if (/[A-Z]/.test(char)) return 680;
  if (char.charCodeAt(0) > 0x2e80) return 1000;
  return 556;
}
