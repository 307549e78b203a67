import { parseCode, plainSpelling, type ParsedCode } from '../../notation/index.ts';
import type { Token } from '../token.ts';
import { readFigure, type Figure } from './figure.ts';
import { remembered } from './remembered.ts';

/** What a word of a sheet can be before its place is known. */
export type CellKind = 'figure' | 'dash' | 'code' | 'half' | 'call' | 'letters' | 'word';

/** One word with its place and what it can be. */
export interface Cell {
  readonly kind: CellKind;
  readonly text: string;
  readonly figure: Figure | null;
  readonly code: ParsedCode | null;
  readonly x0: number;
  readonly x1: number;
  readonly confidence: number;
  readonly alternatives: readonly string[];
}

/** The words of one line of a sheet, from left to right. */
export interface Line {
  readonly cells: readonly Cell[];
  readonly page: number;
  /** Line of the text, row of the table, or position on the page: for messages. */
  readonly at: string;
}

const DASH = /^(?:[-\u2010-\u2015\u2212_.·…]{1,3}|n\/a)$/;
const CALL = /^(?:<<|<|q|e|!|\*|F)(?:[,/]?(?:<<|<|q|e|!|\*|F))*$/;
const LETTERS =
  /^(?:\+?kp:?)?(?:[YNT]{1,4}|[ynt]{2,4}|[YNT](?:[/,-][YNT]){1,3})$|^\+?(?:[nN][CSU]|n[csu])(?:[/,+](?:[nN][CSU]|n[csu]))*$/;
const LETTERS_PREFIX = /^\+?kp:?$/i;
const CODE_START = /^\+?(?:[0-5]?(?:t|s|lo|lz|eu|f|a)|f?c?(?:co|[ulcs])sp|stsq|chs[qpt])/i;
const STRONG_CODE = /^(?:[0-5]|f?c?(?:co|[ulcs])sp|stsq|chs[qpt])/i;
const HALF = /^[xX×✕]$/;
const FIGURE_AND_HALF = /^([+-]?\d{1,3}[.,]\d{1,2})([xX×✕])$/;
const MAX_CODE = 40;

/** Codes repeat from skater to skater; the cache is bounded because texts may be hostile. */
const MAX_KNOWN = 20_000;
const known = new Map<string, ParsedCode | null>();

/** The code that a word spells; null if it spells none. Bare `A`, `Lo`, `F` are not codes by themselves. */
export function codeOf(text: string): ParsedCode | null {
  if (text.length > MAX_CODE || !STRONG_CODE.test(text) || !CODE_START.test(text)) return null;
  // `2A+1Eu+`: the rest stands on the next line.
  return parsedCode(text.endsWith('+') ? text.slice(0, -1) : text);
}

/** As `parseCode`, remembered. */
export function parsedCode(text: string): ParsedCode | null {
  const found = known.get(text);
  if (found !== undefined) return found;
  const read = parseCode(text);
  const code = read.ok ? read.value : null;
  if (known.size >= MAX_KNOWN) known.clear();
  known.set(text, code);
  return code;
}

/** What a word can be, without its place. */
type Sort = Pick<Cell, 'kind' | 'text' | 'figure' | 'code'>;

/** Cells of one word; `3.63x` is two of them. */
export const cellsOfToken = (token: Token): readonly Cell[] =>
  sortsOf(token.text).map(({ kind, text, figure, code }) => ({
    kind,
    text,
    figure,
    code,
    x0: token.x,
    x1: token.x + token.width,
    confidence: token.confidence ?? 1,
    alternatives: token.alternatives?.map((one) => one.text) ?? NONE,
  }));

const sortsOf = remembered((printed): readonly Sort[] => {
  const text = plain(printed);
  const figure = readFigure(text);
  if (figure !== null) return [{ kind: 'figure', text, figure, code: null }];
  if (text === '') return [];
  const glued = text.length <= 9 ? FIGURE_AND_HALF.exec(text) : null;
  if (glued !== null) {
    const [, number = '', sign = ''] = glued;
    return [
      { kind: 'figure', text: number, figure: readFigure(number), code: null },
      { kind: 'half', text: sign, figure: null, code: null },
    ];
  }
  const code = codeOf(text);
  return [{ kind: code === null ? kindOf(text) : 'code', text, figure: null, code }];
});

const ASCII = /^[\x21-\x25\x27-\x7e]+$/;
const plain = (text: string): string =>
  ASCII.test(text) ? text : plainSpelling(text.replace(NO_LETTER, UNREADABLE)).text.trim();

/** Stands for a sign whose font does not say which letter it is. */
export const UNREADABLE = '\ufffd';
const NO_LETTER = /[\p{Cc}\p{Co}\p{Cn}]/gu;

function kindOf(text: string): CellKind {
  if (text.length > 24) return 'word';
  if (DASH.test(text)) return 'dash';
  if (HALF.test(text)) return 'half';
  if (CALL.test(text)) return 'call';
  return LETTERS.test(text) || LETTERS_PREFIX.test(text) ? 'letters' : 'word';
}

const NONE: readonly string[] = [];
