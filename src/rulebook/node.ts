/**
 * Second door of the room: the authoring form (YAML) of a rulebook, with line numbers. Apart from the
 * first door so that programs that only use the shipped rulebooks need no YAML reader.
 */
import {
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  parseDocument,
  visit,
  type Document,
  type YAMLParseError,
} from 'yaml';
import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import { MOST_PROBLEMS, type RulebookFile } from './layer.ts';
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

/** A key that JavaScript would take for something else than a key. */
const NO_KEY = '__proto__';

/** Keys that stand twice in one mapping (the reader's own check compares every pair of keys), and keys that are none. */
function badKeys(document: Document, lines: LineCounter, path: string): Problem[] {
  const problems: Problem[] = [];
  const add = (key: unknown, found: string, expected: string, advice: string): unknown =>
    problems.push({
      code: 'rulebook.yaml',
      at: `${path}, line ${lines.linePos(startOf(key) ?? 0).line}`,
      found,
      expected,
      advice,
    });
  visit(document, {
    Map: (_, map) => {
      const seen = new Set<unknown>();
      for (const { key } of map.items) {
        if (!isScalar(key)) continue;
        const named = `the key ${JSON.stringify(key.value)}`;
        if (seen.has(key.value)) add(key, `${named} a second time`, 'each key once', 'Remove one of them.');
        if (key.value === NO_KEY) add(key, named, 'a key that docs/rulebooks.md lists', 'Remove the key.');
        seen.add(key.value);
      }
    },
  });
  return problems;
}

const yamlProblem = (path: string, error: Pick<YAMLParseError, 'code' | 'linePos' | 'message'>): Problem => ({
  code: 'rulebook.yaml',
  at: `${path}, line ${error.linePos?.[0].line ?? 1}, column ${error.linePos?.[0].col ?? 1}`,
  found: error.message.split('\n')[0] ?? error.code,
  expected: 'YAML: `key: value` lines, indented by spaces',
  advice: 'Mend the line; keys such as `<` and `!` must stand in quotes.',
});

/** Reads a rulebook file in its authoring form (YAML; JSON is YAML too). Never throws. */
export function readRulebookText(path: string, text: string): Result<RulebookFile, readonly Problem[]> {
  const refuse = (found: string, expected: string, advice: string): Result<never, readonly Problem[]> =>
    fail([{ code: 'rulebook.yaml', at: path, found, expected, advice }]);
  if (text.length > LARGEST) return refuse(`${text.length} characters`, `at most ${LARGEST}`, 'Split the file.');
  try {
    const lines = new LineCounter();
    const document = parseDocument(text, { lineCounter: lines, uniqueKeys: false });
    const errors = document.errors.map((error) => yamlProblem(path, error));
    const problems = errors.length > 0 ? errors : badKeys(document, lines, path);
    if (problems.length > 0) return fail(problems.slice(0, MOST_PROBLEMS));
    const value: unknown = document.toJS({ maxAliasCount: 100 });
    return ok({ path, document: value, lineOf: (at) => lineOf(document, lines, at) });
  } catch {
    return refuse('too many aliases or too deep a nesting', 'plain values', 'Write the values out.');
  }
}
