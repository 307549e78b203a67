const SEPARATORS = [';', '\t', ',', '|'] as const;
const SAMPLE = 40;

/**
 * The separator of a CSV text: the sign that cuts most of its first lines into the same number of
 * cells; null if the text is no table. A comma that is a decimal sign does not count.
 */
export function separatorOf(text: string): string | null {
  const lines = text
    .slice(0, 20_000)
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
    .slice(0, SAMPLE);
  let best: string | null = null;
  let most = 0;
  for (const separator of SEPARATORS) {
    const rows = lines.map((line) => cellsOfLine(line, separator));
    const wide = rows.filter((row) => row.length >= 5).length;
    if (isDecimalSign(rows)) continue;
    if (wide > most && wide >= Math.max(2, 0.4 * lines.length)) [best, most] = [separator, wide];
  }
  return best === '\t' ? null : best;
}

/** `81 0` between two commas: the comma stands in figures, not between cells. */
function isDecimalSign(rows: readonly (readonly string[])[]): boolean {
  const cells = rows.flat().filter((cell) => cell !== '');
  return cells.filter((cell) => /^\d\d?\s.*\d$/.test(cell)).length > 0.15 * cells.length;
}

/** Cells of one line; quotes as usual. */
function cellsOfLine(line: string, separator: string): string[] {
  return [...rowsOfCsv(line, separator)][0] ?? [];
}

/**
 * Rows of a CSV text, one at a time, in one pass. Quoted cells may hold the separator, line ends and doubled quotes;
 * a quote that is never closed ends with its line.
 */
export function* rowsOfCsv(text: string, separator: string): Generator<string[]> {
  let at = 0;
  while (at < text.length) {
    const plain = plainLine(text, at);
    if (plain !== null) {
      yield plain.line.split(separator);
      at = plain.end;
      continue;
    }
    const row: string[] = [];
    for (;;) {
      const cell = takeCell(text, at, separator);
      row.push(cell.text);
      at = cell.end;
      if (text.startsWith(separator, at) && at < text.length) at += separator.length;
      else break;
    }
    if (text[at] === '\r') at++;
    if (text[at] === '\n') at++;
    yield row;
  }
}

/** A line without quotes needs no care; null if there is a quote on it. */
function plainLine(text: string, from: number): { line: string; end: number } | null {
  const feed = text.indexOf('\n', from);
  const end = feed < 0 ? text.length : feed;
  const line = text.slice(from, text[end - 1] === '\r' && end > from ? end - 1 : end);
  return line.includes('"') ? null : { line, end: end + 1 };
}

const LONGEST_QUOTE = 10_000;

function takeCell(text: string, from: number, separator: string): { text: string; end: number } {
  if (text[from] === '"') {
    const quoted = takeQuoted(text, from, separator);
    if (quoted !== null) return quoted;
  }
  let end = from;
  while (end < text.length && text[end] !== separator && text[end] !== '\n' && text[end] !== '\r') end++;
  return { text: text.slice(from, end), end };
}

function takeQuoted(text: string, from: number, separator: string): { text: string; end: number } | null {
  let cell = '';
  let at = from + 1;
  for (;;) {
    const quote = text.indexOf('"', at);
    if (quote < 0 || quote - from > LONGEST_QUOTE) return null;
    cell += text.slice(at, quote);
    if (text[quote + 1] !== '"') {
      const next = text[quote + 1];
      return next === undefined || next === separator || next === '\n' || next === '\r'
        ? { text: cell, end: quote + 1 }
        : null;
    }
    cell += '"';
    at = quote + 2;
  }
}
