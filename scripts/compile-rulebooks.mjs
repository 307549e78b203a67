/**
 * `npm run rulebooks`: reads rulebooks/**\/*.yaml, checks every value and its citation, and writes them
 * as compact JSON into src/rulebook/shipped/rulebooks.generated.ts. Troubles are printed with file,
 * line and path; then the exit code is 1 and nothing is written. With a folder as argument that folder
 * is checked in place of rulebooks/ and nothing is written.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
const [, , folder] = process.argv;
const SOURCE = folder === undefined ? path.join(ROOT, 'rulebooks') : path.resolve(folder);
const TARGET = path.join(ROOT, 'src/rulebook/shipped/rulebooks.generated.ts');

register();
const { readRulebookText } = await import('../src/rulebook/node.ts');
const { loadLibrary } = await import('../src/rulebook/library.ts');
const { describeProblem } = await import('../src/notation/problem.ts');

/** Problems are many when a shared value is wrong; the first ones tell enough. */
const SHOWN = 40;

function stop(problems) {
  for (const problem of problems.slice(0, SHOWN)) console.error(describeProblem(problem));
  if (problems.length > SHOWN) console.error(`… and ${problems.length - SHOWN} more`);
  process.exit(1);
}

const names = readdirSync(SOURCE, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => name.split(path.sep).join('/'))
  .sort();
const read = names.map((name) => readRulebookText(`rulebooks/${name}`, readFileSync(path.join(SOURCE, name), 'utf8')));
const unreadable = read.flatMap((result) => (result.ok ? [] : result.error));
if (unreadable.length > 0) stop(unreadable);
const files = read.map((result) => result.value);

const library = loadLibrary(files);
if (!library.ok) stop(library.error);

const summary = `${library.value.list().length} rulebooks from ${files.length} files`;
if (folder !== undefined) {
  console.log(`${summary}, checked`);
  process.exit(0);
}

const quoted = (value) =>
  JSON.stringify(JSON.stringify(value)).replace(/[\u2028\u2029]/g, (c) => `\\u${c.charCodeAt(0).toString(16)}`);
const lines = files.map((file) => `  [${JSON.stringify(file.path)}, ${quoted(file.document)}],`);
mkdirSync(path.dirname(TARGET), { recursive: true });
writeFileSync(
  TARGET,
  [
    '/** Written by `npm run rulebooks` from rulebooks/; do not edit. Each rulebook file as JSON, parsed when asked for. */',
    'export const SHIPPED: readonly (readonly [path: string, json: string])[] = [',
    ...lines,
    '];',
    '',
  ].join('\n'),
);
console.log(summary);
