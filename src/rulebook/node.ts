/**
 * Second door of the room: the authoring form (YAML) of a rulebook, with line numbers. Apart from the
 * first door so that programs that only use the shipped rulebooks need no YAML reader.
 */
import { isNode, LineCounter, parseDocument, type Document } from 'yaml';
import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import type { RulebookFile } from './layer.ts';
import type { Path } from './tree.ts';

/** Largest rulebook file that is read, in characters. */
const LARGEST = 2_000_000;

function lineOf(document: Document, lines: LineCounter, path: Path): number | null {
  for (let known = path; known.length > 0; known = known.slice(0, -1)) {
    const node: unknown = document.getIn(known, true);
    if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
  }
  return null;
}

/** Reads a rulebook file in its authoring form (YAML; JSON is YAML too). Never throws. */
export function readRulebookText(path: string, text: string): Result<RulebookFile, readonly Problem[]> {
  if (text.length > LARGEST) {
    const found = `${text.length} characters`;
    const problem = {
      code: 'rulebook.size',
      at: path,
      found,
      expected: `at most ${LARGEST}`,
      advice: 'Split the file.',
    };
    return fail([problem]);
  }
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true });
  const problems = document.errors.map((error) => ({
    code: 'rulebook.yaml',
    at: `${path}, line ${error.linePos?.[0].line ?? 1}, column ${error.linePos?.[0].col ?? 1}`,
    found: error.message.split('\n')[0] ?? error.code,
    expected: 'YAML: `key: value` lines, indented by spaces',
    advice: 'Mend the line; keys such as `<` and `!` must stand in quotes.',
  }));
  if (problems.length > 0) return fail(problems);
  try {
    const value: unknown = document.toJS({ maxAliasCount: 100 });
    return ok({ path, document: value, lineOf: (at) => lineOf(document, lines, at) });
  } catch {
    const advice = 'Write the values out.';
    return fail([{ code: 'rulebook.yaml', at: path, found: 'too many aliases', expected: 'plain values', advice }]);
  }
}
