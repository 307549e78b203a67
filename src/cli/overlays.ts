import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';

import { describeProblem, type Problem } from '../notation/index.ts';
import { shippedLibrary, type Library, type RulebookFile } from '../rulebook/index.ts';
import { UsageError, type Io } from './io.ts';

/** Somebody's own rulebook files: read from a folder once per command line, before the command runs. */

/** Environment variable with the folder, where `--rulebooks` is not given. */
const FOLDER_VARIABLE = 'EDGELEDGER_RULEBOOKS';

/** A folder with more files than this is not a folder of rulebooks. */
const MOST_FILES = 500;
/** Problems that are printed; the first ones tell enough. */
const SHOWN = 20;

interface InUse {
  readonly library: Library;
  /** The files that were added to the shipped ones. */
  readonly own: readonly RulebookFile[];
}

let inUse: InUse | null = null;

/** The rulebooks of this command line: the shipped ones and whatever `useOverlays` has added. */
export const libraryInUse = (): Library => inUse?.library ?? shippedLibrary();

/** As `libraryInUse`, with the added files: what the app needs to use the same rules. */
export const rulesInUse = (): InUse => inUse ?? { library: shippedLibrary(), own: [] };

/**
 * Adds the rulebook files of a folder (`.yaml`, `.yml`, `.json`, folders below included) to the shipped
 * ones. No folder: the shipped ones alone. A file that does not pass the check is bad usage, with file,
 * line and path: nothing is answered with half of somebody's rules.
 */
export async function useOverlays(io: Pick<Io, 'env'>, folder: string | undefined): Promise<void> {
  inUse = null;
  const wanted = folder ?? io.env[FOLDER_VARIABLE];
  if (wanted === undefined || wanted === '') return;
  const own = await readFolder(wanted);
  const extended = shippedLibrary().extend(own);
  if (!extended.ok) throw overlayError(extended.error);
  inUse = { library: extended.value, own };
}

function overlayError(problems: readonly Problem[]): UsageError {
  const more = problems.length > SHOWN ? [`… and ${problems.length - SHOWN} more`] : [];
  return new UsageError([...problems.slice(0, SHOWN).map(describeProblem), ...more].join('\n'));
}

async function readFolder(folder: string): Promise<readonly RulebookFile[]> {
  const names = await readdir(folder, { recursive: true }).catch(() => {
    throw new UsageError(`${folder}: no folder of rulebooks can be read there; check the path.`);
  });
  const wanted = names.filter((name) => /\.(ya?ml|json)$/i.test(name)).sort();
  if (wanted.length > MOST_FILES) {
    throw new UsageError(`${folder}: ${wanted.length} files; a folder of rulebooks has at most ${MOST_FILES}.`);
  }
  const files: RulebookFile[] = [];
  for (const name of wanted) files.push(await readRulebookFile(path.join(folder, name)));
  return files;
}

/** Reads one rulebook file; unreadable or no YAML is bad usage. */
export async function readRulebookFile(file: string): Promise<RulebookFile> {
  const text = await readFile(file, 'utf8').catch(() => {
    throw new UsageError(`${file}: cannot be read; check the path.`);
  });
  return parseRulebook(file, text);
}

/** As `readRulebookFile`, from a text that is already there. */
export async function parseRulebook(name: string, text: string): Promise<RulebookFile> {
  const { readRulebookText } = await import('../rulebook/node.ts');
  const file = readRulebookText(name, text);
  if (!file.ok) throw overlayError(file.error);
  return file.value;
}
