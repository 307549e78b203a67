/**
 * Second door of the room: the authoring form (YAML) of a rulebook, with line numbers. Apart from the
 * first door so that programs that only use the shipped rulebooks need no YAML reader.
 */
import { isAlias, isMap, isNode, isScalar, isSeq, LineCounter, parseDocument, type Document } from 'yaml';
import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import type { RulebookFile } from './layer.ts';
import type { Path } from './tree.ts';

/** Largest rulebook file that is read, in characters. */
const LARGEST = 2_000_000;

/** One step down: the node below and where it begins (a key begins where its name stands). */
function step(document: Document, node: unknown, part: string | number): { node: unknown; at: number | null } {
  const below = isAlias(node) ? node.resolve(document) : node;
  if (isMap(below)) {
    const pair = below.items.find(({ key }) => (isScalar(key) ? String(key.value) : '') === String(part));
    return { node: pair?.value, at: startOf(pair?.key) };
  }
  const item = isSeq(below) && typeof part === 'number' ? below.items[part] : undefined;
  return { node: item, at: startOf(item) };
}

const startOf = (node: unknown): number | null => (isNode(node) && node.range ? node.range[0] : null);

/** The line of the last part of a path that the text really has. */
function lineOf(document: Document, lines: LineCounter, path: Path): number | null {
  let node: unknown = document.contents;
  let line: number | null = null;
  for (const part of path) {
    const next = step(document, node, part);
    if (next.at === null) break;
    line = lines.linePos(next.at).line;
    node = next.node;
  }
  return line;
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
