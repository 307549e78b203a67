import type { Token } from '../token.ts';
import type { Library } from '../../rulebook/index.ts';
import type { Line } from './cell.ts';
import { isComponentLine } from './component-plan.ts';
import {
  hasPoints,
  isColumnHeader,
  namesEvent,
  namesSegment,
  NO_HEADING,
  readHeadings,
  textOf,
  type Heading,
} from './heading.ts';
import { isLettersLine } from './letters.ts';
import { lineOfTokens, linesOfPage, MAX_CELLS } from './lines.ts';
import type { Given, SheetReading } from './reading.ts';
import { codeIndex, isEntry } from './row.ts';
import { seasonsOf, type Season } from './rules-fit.ts';
import { mended } from './mend.ts';
import { readSheetLines, type Memory, type SheetLines } from './sheet.ts';
import { claimsOf, deductionsIn } from './totals.ts';

/** What the recogniser needs besides the words. */
export interface RecogniserOptions {
  readonly library: Library;
  readonly given?: Given;
}

/**
 * Reads sheets from words, one open skater at a time: memory is one page and the open sheet. `page`
 * takes the words of a page (PDF, photograph), `line` those of one line (text, table rows); both
 * answer with the sheets that are complete. `end` closes the last one.
 */
export interface Recogniser {
  page(tokens: readonly Token[]): SheetReading[];
  line(tokens: readonly Token[], at: string): SheetReading[];
  end(): SheetReading[];
  /** Opens the rulebooks now, not when the first sheet is complete: for those who have to wait anyway. */
  prepare(): void;
}

type Kind = 'element' | 'component' | 'other';
interface Item {
  readonly kind: Kind;
  readonly line: Line;
}

/** Lines kept while nobody is open: the first name the event, the last the skater. */
const FIRST_LINES = 40;
const LAST_LINES = 60;
/** More elements than any program has: the block is closed so that memory stays bounded. */
const MAX_ELEMENTS = 60;
const MAX_ITEMS = 400;
/** More lines of components than any sheet has, wrapped ones included. */
const MAX_COMPONENTS = 20;

interface State {
  pending: Line[];
  head: readonly Line[];
  items: Item[];
  heading: Heading;
  /** Ways in which the rows so far were numbered 1, 2, 3 …: place from the left and from the right. */
  numbering: Set<string>;
  elements: number;
  components: number;
  memory: Memory;
  /** Signatures of the lines that stood above a skater's tables. */
  signatures: Set<string>;
}

export function createRecogniser(options: RecogniserOptions): Recogniser {
  const given = options.given ?? {};
  let seasons: readonly Season[] | null = null;
  const allSeasons = (): readonly Season[] => (seasons ??= preferred(seasonsOf(options.library)));
  const state: State = {
    pending: [],
    head: [],
    items: [],
    heading: NO_HEADING,
    numbering: new Set(),
    elements: 0,
    components: 0,
    memory: { seasons: null, elements: null, components: null },
    signatures: new Set(),
  };
  const close = (): SheetReading[] => {
    if (state.items.length === 0) return [];
    const known = allSeasons();
    const { own, next } = splitTail(state);
    const lines: SheetLines = { head: state.head, items: own };
    const reading = mended(lines, (one) => readSheetLines(one, state.heading, given, known, state.memory));
    for (const line of state.head) state.signatures.add(signature(line));
    Object.assign(state, { items: [], head: [], pending: next, elements: 0, components: 0, numbering: new Set() });
    return [reading];
  };
  const take = (line: Line): SheetReading[] => {
    const kind = kindOf(line, state);
    if (kind === 'other') return takeOther(state, line);
    const done = startsAnother(state, kind, line) ? close() : [];
    if (state.items.length === 0) openSheet(state);
    state.items.push({ kind, line });
    if (kind === 'element') count(state, line);
    else state.components++;
    return done;
  };
  return {
    page: (tokens) => linesOfPage(tokens).flatMap(take),
    line: (tokens, at) => {
      const line = lineOfTokens(tokens, at);
      return line === null ? [] : take(line);
    },
    end: close,
    prepare: () => void allSeasons(),
  };
}

/** Rulebooks of one season with the same values are one hypothesis; the newest settled seasons come first. */
function preferred(seasons: readonly Season[]): Season[] {
  const seen = new Set<string>();
  return seasons
    .filter(({ rulebook }) => {
      const sample = ['3Lz', '3Lz<', '3F<e', '2A', 'CCoSp4', 'CCoSp3V', 'StSq3', 'ChSq1'].map(
        (code) => rulebook.row(code)?.base,
      );
      const key = JSON.stringify([
        rulebook.season,
        sample,
        rulebook.values.panel,
        rulebook.values.goe,
        rulebook.values.sequence,
      ]);
      return seen.has(key) ? false : seen.add(key);
    })
    .sort((a, b) => b.rulebook.season.localeCompare(a.rulebook.season));
}

function takeOther(state: State, line: Line): SheetReading[] {
  if (state.items.length > 0) {
    if (state.items.length < MAX_ITEMS) state.items.push({ kind: 'other', line });
    return [];
  }
  state.pending.push(line);
  if (state.pending.length > FIRST_LINES + 2 * LAST_LINES) state.pending.splice(FIRST_LINES, LAST_LINES);
  return [];
}

function openSheet(state: State): void {
  state.head = state.pending;
  state.pending = [];
  state.heading = readHeadings(state.heading, state.head);
}

function kindOf(line: Line, state: State): Kind {
  if (line.cells.length >= MAX_CELLS) return 'other';
  if (isLettersLine(line) && !isNewRow(line)) return 'other';
  if (isElementLine(line, state)) return 'element';
  const last = state.items.findLast((item) => item.kind !== 'other')?.kind;
  if (!isComponentLine(line, last === 'component')) return 'other';
  return last === 'component' && state.components >= MAX_COMPONENTS ? 'other' : 'component';
}

/** A letters line repeats a code without any figures; a first line of a two-line row has points. */
const isNewRow = (line: Line): boolean =>
  line.cells.some((cell) => (cell.figure?.decimals ?? 0) > 0) || line.cells.filter(isEntry).length > 2;

/** A line with a code and either figures or nothing else worth mentioning. */
function isElementLine(line: Line, state: State): boolean {
  const index = codeIndex(line);
  const words = line.cells.filter((cell) => cell.kind === 'word' && !cell.text.startsWith('+')).length;
  const numbers = line.cells.filter(isEntry).length;
  if (index >= 0)
    return (
      numbers >= 3 || (words === 0 && (numbers <= 1 || line.cells.some((cell) => (cell.figure?.decimals ?? 0) > 0)))
    );
  return isUnreadableRow(line, state, words, numbers);
}

/** In an element block: a numbered line with as many figures as the rows before, but a word for a code. */
function isUnreadableRow(line: Line, state: State, words: number, numbers: number): boolean {
  const last = state.items.findLast((item) => item.kind !== 'other');
  if (last?.kind !== 'element' || words === 0 || words > 4 || numbers < 4) return false;
  const before = last.line.cells.filter(isEntry).length;
  return (
    Math.abs(before - numbers) <= 1 && [...numberings(line, state.elements + 1)].some((one) => state.numbering.has(one))
  );
}

/** Places at which a line carries the given number. */
function numberings(line: Line, number: number): Set<string> {
  const entries = line.cells.filter(isEntry);
  const found = new Set<string>();
  entries.forEach((cell, i) => {
    if (cell.figure?.decimals === 0 && cell.figure.value === 100 * number) {
      if (i < 2) found.add(`left ${i}`);
      if (i >= entries.length - 2) found.add(`right ${entries.length - 1 - i}`);
    }
  });
  return found;
}

function count(state: State, line: Line): void {
  state.elements++;
  const here = numberings(line, state.elements);
  state.numbering = state.elements === 1 ? here : new Set([...state.numbering].filter((one) => here.has(one)));
}

/** Does this line begin another skater's table? */
function startsAnother(state: State, kind: Kind, line: Line): boolean {
  const blocks = state.items.filter((item) => item.kind !== 'other');
  const last = blocks.at(-1);
  if (last === undefined) return false;
  if (kind !== last.kind) return blocks.some((item) => item.kind === kind);
  if (kind === 'component') return false;
  return state.elements >= MAX_ELEMENTS || restarts(state, line);
}

/** The numbering begins again, and something other than figures stands in between. */
function restarts(state: State, line: Line): boolean {
  const places = [...state.numbering];
  const carriesOn = numberings(line, state.elements + 1);
  if (places.length === 0 || places.some((one) => carriesOn.has(one))) return false;
  const again = numberings(line, 1);
  if (!places.some((one) => again.has(one))) return false;
  const last = state.items.findLastIndex((item) => item.kind === 'element');
  return state.items.slice(last + 1).some((item) => /\p{L}{2,}/u.test(textOf(item.line)));
}

/** The shape of a line: its label, or the order of words and figures. */
export function signature(line: Line): string {
  const text = textOf(line).replace(/\d+/g, '#');
  const colon = text.indexOf(':');
  if (colon > 0) return text.slice(0, colon);
  // A label with its figure is known by its words; a row with a name by its shape.
  if (line.cells.filter((cell) => cell.kind === 'figure').length <= 2) return text.slice(0, 120);
  return line.cells
    .map((cell) =>
      cell.kind === 'figure' ? (cell.figure?.decimals === 0 ? 'n' : 'p') : cell.kind === 'dash' ? '-' : 'w',
    )
    .join('')
    .replace(/w+/g, 'w');
}

/** Divides what stands under the last table into the skater's own foot and the next skater's head. */
function splitTail(state: State): { own: readonly Item[]; next: Line[] } {
  const last = state.items.findLastIndex((item) => item.kind !== 'other');
  const tail = state.items.slice(last + 1);
  const headShapes = new Set(state.head.map(signature));
  const at = footLength(
    tail.map((item) => item.line),
    (line) => headShapes.has(signature(line)) || state.signatures.has(signature(line)),
    state,
  );
  return { own: state.items.slice(0, last + 1 + at), next: tail.slice(at).map((item) => item.line) };
}

/** A head begins with words or a whole row; not with a labelled total, and not with the number of the page. */
function beginsHead(line: Line): boolean {
  const figures = line.cells.flatMap((cell) => (cell.figure === null ? [] : [cell.figure]));
  const isFolio = line.cells.length <= 4 && figures.some((one) => one.decimals === 0 && one.value === 100 * line.page);
  return !isFolio && (figures.length > 2 || !hasPoints(line));
}

/** How many lines of the tail are this skater's: up to the last total of his, else up to the first line that heads the next. */
function footLength(tail: readonly Line[], isHead: (line: Line) => boolean, state: State): number {
  const headHasTotals = state.head.some(
    (line) => claimsOf([line]).filter((claim) => claim.decimals === 2).length >= 3 || /\d[.,]\d\d/.test(textOf(line)),
  );
  const firstHead = tail.findIndex(
    (line) => (isHead(line) && beginsHead(line)) || isColumnHeader(line) || namesSegment(line) || namesEvent(line),
  );
  const labelled = tail.findLastIndex(
    (line) =>
      deductionsIn(line).items.length > 0 ||
      claimsOf([line]).some((claim) => claim.label !== null && claim.decimals > 0),
  );
  if (firstHead >= 0) return firstHead;
  // Nothing above her tables is a total, so those below are hers, whatever their words.
  if (!headHasTotals) return Math.max(labelled, tail.findLastIndex(hasPoints)) + 1;
  const first = tail.findIndex((line) => claimsOf([line]).length === 0);
  return Math.max(labelled + 1, first < 0 ? tail.length : 0);
}
