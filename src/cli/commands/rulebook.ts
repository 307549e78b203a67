import type { Command } from 'commander';

import { describeProblem, type Problem } from '../../notation/index.ts';
import { diffRows, diffRulebooks, maskedValues, shippedLibrary, type Rulebook } from '../../rulebook/index.ts';
import { UsageError, type Io } from '../io.ts';
import { libraryInUse, parseRulebook, readRulebookFile } from '../overlays.ts';
import { openSource, readRest } from '../source.ts';
import { changesForm, listForm, rulebookForm } from './rulebook-form.ts';
import { changesText, listText, rulebookText } from './rulebook-text.ts';

interface Flags {
  readonly json?: boolean;
  readonly at?: string;
  readonly rows?: boolean;
}

/** Of a file of one's own; rulebooks/ asks for more than this check does. */
const WHERE =
  'Put it into your folder of rulebooks (--rulebooks). A file for rulebooks/ needs a source for every value too; `npm run build` checks that and compiles it.';

/** Rulebook files are written by hand: a longer one is a mistake. */
const LARGEST = 2_000_000;

/** `edgeledger rulebook list|show|check|diff`: the rules as data, with the source of every value. */
export function register(program: Command, io: Io): void {
  const rulebook = program.command('rulebook').description('the rules as data: list, show, check, diff');
  const print = (flags: Flags, form: () => unknown, text: () => string): Promise<void> =>
    io.out(flags.json === true ? `${JSON.stringify(form())}\n` : `${text()}\n`);

  rulebook
    .command('list')
    .description('all rulebooks, yours included')
    .option('--json', 'one compact JSON value per rulebook')
    .action(async (flags: Flags) => {
      const books = allRulebooks();
      if (flags.json === true) for (const book of books) await print(flags, () => listForm(book), String);
      else await io.out(`${listText(books)}\n`);
    });

  rulebook
    .command('show')
    .description('every value of a rulebook with its source')
    .argument('<id>', 'e.g. isu/2023-24')
    .option('--at <path>', 'only values below this path, e.g. "content.novice women.free"')
    .option('--rows', 'the scale of values too, row by row')
    .option('--json', 'one compact JSON value')
    .action((id: string, flags: Flags) => {
      const book = find(id);
      return print(
        flags,
        () => rulebookForm(book, flags.at),
        () => rulebookText(book, flags.at, flags.rows === true, io),
      );
    });

  rulebook
    .command('diff')
    .description('what changes from one rulebook to another, value by value; one id twice: what your own files change')
    .argument('<a>', 'e.g. isu/2023-24')
    .argument('<b>', 'e.g. isu/2024-25')
    .option('--json', 'one compact JSON value')
    .action((a: string, b: string, flags: Flags) => {
      const [before, after] = [a === b ? shippedOf(a) : find(a), find(b)];
      const changes = diffRulebooks(before, after);
      const rows = diffRows(before, after);
      return print(
        flags,
        () => changesForm(before, after, changes, rows),
        () => changesText(before, after, changes, rows, io),
      );
    });

  rulebook
    .command('check')
    .description('is a rulebook file of your own well made?')
    .argument('<file>', 'a rulebook file (YAML or JSON); - is standard input')
    .option('--json', 'one compact JSON value')
    .action((file: string, flags: Flags) => check(file, flags, io));
}

const maskedText = (path: string): string =>
  `${path} reaches no category: each has a more special record over it. Write it for the categories, such as “senior women”.`;

async function check(name: string, flags: Flags, io: Io): Promise<void> {
  const file = name === '-' ? await parseRulebook('-', await standardInput(io)) : await readRulebookFile(name);
  const extended = libraryInUse().extend([file]);
  const problems: readonly Problem[] = extended.ok ? [] : extended.error;
  const shipped = problems.length > 0 && problems.every(({ code }) => code === 'rulebook.shipped');
  if (shipped) {
    if (flags.json === true) await io.out(`${JSON.stringify({ file: name, ok: true, shipped, problems: [] })}\n`);
    else await io.out(`${name}: shipped with the program as it stands here, checked when it was compiled.\n`);
    return;
  }
  if (problems.length > 0) io.exit(1);
  const warnings = extended.ok ? maskedValues(extended.value, file).map(maskedText) : [];
  const told = warnings.length === 0 ? {} : { warnings };
  if (flags.json === true) await io.out(`${JSON.stringify({ file: name, ok: extended.ok, problems, ...told })}\n`);
  else if (extended.ok)
    await io.out(`${name}: well made. ${WHERE}\n${warnings.map((one) => `Note: ${one}\n`).join('')}`);
  else await io.out(`${problems.map(describeProblem).join('\n')}\n`);
}

async function standardInput(io: Io): Promise<string> {
  const bytes = await readRest([], await openSource('-', io), LARGEST);
  if (bytes === null) throw new UsageError('-: longer than any rulebook file; give the file itself.');
  return bytes.toString('utf8');
}

const allRulebooks = (): readonly Rulebook[] => {
  const library = libraryInUse();
  return library.list().flatMap((id) => library.rulebook(id) ?? []);
};

/** The same id twice: what is shipped against what one's own files make of it. */
const shippedOf = (id: string): Rulebook => shippedLibrary().rulebook(id) ?? find(id);

function find(id: string): Rulebook {
  const book = libraryInUse().rulebook(id);
  if (!book)
    throw new UsageError(
      `No rulebook is called “${id}”. There are: ${libraryInUse().list().join(', ')}. A new file in rulebooks/ is known after \`npm run build\`, which compiles it.`,
    );
  return book;
}
