import type { Problem } from '../notation/index.ts';
import { lazy } from './remember.ts';
import { formatPath, isTree, leaves, lookUp, type Path, type Tree } from './tree.ts';
import type { CitationStatus } from './types.ts';

/** A rulebook file as parsed, with the way from a path to its line (for messages). */
export interface RulebookFile {
  /** Name for people, e.g. `isu/2023-24.yaml`. */
  readonly path: string;
  readonly document: unknown;
  /** Line (from 1) of the value at a path, if the text is at hand. */
  readonly lineOf?: (path: Path) => number | null;
}

/** A source as a file names it; `weak`: the source doubts itself. */
export interface Source {
  readonly source: string;
  readonly status: CitationStatus;
  readonly weak: boolean;
}

/** One file before inheritance: its values without `cite` keys, and where each value comes from. */
export interface Layer {
  readonly file: RulebookFile;
  readonly id: string;
  /** Overlays only: ids of the rulebooks whose values it changes; null for a rulebook of its own. */
  readonly overlay: readonly string[] | null;
  readonly abstract: boolean;
  readonly extends: readonly string[];
  /** Header values: body, season, title, valid, provisional. */
  readonly head: Tree;
  /** The families of rules, `cite` keys taken out. */
  readonly values: Tree;
  /** As authored, `cite` keys included: the way to a citation. */
  readonly authored: Tree;
  readonly sources: ReadonlyMap<string, Source>;
  /**
   * Family -> `cite` for what this body takes over from another one: that the rule holds here too is
   * known no better than this, however well the other body's text is known.
   */
  readonly takenOver: Tree;
  /** Set for overlays: whatever their sources say, their values are somebody's own. */
  readonly local: boolean;
}

/** Keys of a file that are no values. */
const HEAD_KEYS = ['id', 'overlay', 'abstract', 'extends', 'body', 'season', 'title', 'provisional', 'valid'];
const PLUMBING = new Set([...HEAD_KEYS, 'sources', 'cite', 'takenOver']);

const withoutCites = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(withoutCites);
  if (!isTree(value)) return value;
  const entries = Object.entries(value).filter(([key]) => key !== 'cite');
  return Object.fromEntries(entries.map(([key, item]) => [key, withoutCites(item)]));
};

const asList = (value: unknown): readonly string[] =>
  (Array.isArray(value) ? value : [value]).filter((item): item is string => typeof item === 'string');

const readSource = (value: unknown): Source | null => {
  if (!isTree(value) || typeof value.source !== 'string' || value.source.trim() === '') return null;
  const { status } = value;
  if (status !== 'published' && status !== 'memory' && status !== 'local') return null;
  return { source: value.source, status, weak: value.weak === true };
};

/** Takes a file apart. Shape errors of the values are found later, on the merged document. */
export function toLayer(file: RulebookFile, local: boolean): Layer {
  const document = isTree(file.document) ? file.document : {};
  const sources = new Map<string, Source>();
  for (const [key, value] of Object.entries(isTree(document.sources) ? document.sources : {})) {
    const source = readSource(value);
    if (source) sources.set(key, source);
  }
  const pick = (keep: (key: string) => boolean): Tree =>
    Object.fromEntries(Object.entries(document).filter(([key]) => keep(key)));
  const values = lazy(() => withoutCites(pick((key) => !PLUMBING.has(key))) as Tree);
  const overlay = Object.hasOwn(document, 'overlay') ? asList(document.overlay) : null;
  return {
    file,
    id: typeof document.id === 'string' ? document.id : file.path,
    overlay,
    abstract: document.abstract === true,
    extends: asList(document.extends),
    head: withoutCites(pick((key) => HEAD_KEYS.includes(key))) as Tree,
    get values() {
      return values();
    },
    authored: document,
    sources,
    takenOver: isTree(document.takenOver) ? document.takenOver : {},
    local,
  };
}

/** A `cite` with one source for each key beside it; `_` stands for the keys that it does not name. */
const isDivided = (cite: unknown): cite is Tree => isTree(cite) && !Object.hasOwn(cite, 'source');

/**
 * The `cite` in force at a path of a layer: the nearest one on the way down to it. A `cite` is a key
 * of the sources table, a source written in place, or a mapping from the keys beside it to either.
 */
export function citeAt(layer: Layer, path: Path): unknown {
  let cite: unknown;
  let node: unknown = layer.authored;
  for (const part of [...path, null]) {
    if (isTree(node) && Object.hasOwn(node, 'cite')) {
      const own = node.cite;
      if (!isDivided(own)) cite = own;
      else if (part !== null && Object.hasOwn(own, part)) cite = own[part];
      else cite = own._ ?? cite;
    }
    if (part !== null) node = lookUp(node, [part]).value;
  }
  return cite;
}

/** The source behind a `cite`: a key of the tables given (nearest first) or a source written in place. */
export function resolveCite(cite: unknown, layers: readonly Layer[]): Source | null {
  if (typeof cite !== 'string') return readSource(cite);
  for (const layer of layers) {
    const source = layer.sources.get(cite);
    if (source) return source;
  }
  return null;
}

/** Problems of one kind that are worked out for one file: a broken file must not cost minutes. */
export const MOST_PROBLEMS = 100;

/** `isu/2023-24.yaml, line 12: values.repeatPercent`. */
export function place(file: RulebookFile, path: Path): string {
  const line = file.lineOf?.(path) ?? null;
  return `${file.path}${line === null ? '' : `, line ${line}`}${path.length > 0 ? `: ${formatPath(path)}` : ''}`;
}

/** A value as found, short; what JSON cannot write (`.nan`, `.inf`) is named and not shown as null. */
export const show = (value: unknown): string =>
  value === undefined
    ? 'nothing'
    : JSON.stringify(value, (_, item: unknown) =>
        typeof item === 'number' && !Number.isFinite(item) ? String(item) : item,
      ).slice(0, 80);

/**
 * Troubles of one file by itself: no id, unreadable sources, a value without a citation.
 * `chain` gives the layers whose source tables may be named, nearest first.
 */
export function layerProblems(layer: Layer, chain: readonly Layer[]): Problem[] {
  const { file, authored } = layer;
  const problems: Problem[] = [];
  const add = (path: Path, found: unknown, expected: string, advice: string): unknown =>
    problems.push({ code: 'rulebook.file', at: place(file, path), found: show(found), expected, advice });

  if (!isTree(file.document)) {
    add([], file.document, 'a mapping of keys', 'Start the file with `id:` or `overlay:`.');
    return problems;
  }
  const ids = layer.overlay ?? [authored.id];
  for (const id of ids) {
    if (typeof id !== 'string' || !/^[a-z0-9-]+\/[a-z0-9-]+$/.test(id)) {
      const key = layer.overlay ? 'overlay' : 'id';
      add([key], id, 'an id such as `isu/2023-24`', 'Small letters, digits and hyphens, one slash.');
    }
  }
  if (layer.overlay && authored.id !== undefined) {
    add(
      ['id'],
      authored.id,
      'either `overlay:` or `id:`',
      'An overlay has no id; a rulebook of its own has no `overlay:`.',
    );
  }
  for (const [key, value] of Object.entries(isTree(authored.sources) ? authored.sources : {})) {
    if (!layer.sources.has(key)) {
      add(
        ['sources', key],
        value,
        '`{source: text, status: published|memory|local}`',
        'Name the document and its mark.',
      );
    }
  }
  for (const [family, cite] of Object.entries(layer.takenOver)) {
    if (!resolveCite(cite, [layer, ...chain])) {
      add(['takenOver', family], cite, 'a `cite` that names an entry of `sources:`', 'Add the source to the table.');
    }
  }
  for (const { path } of leaves({ ...layer.values, valid: layer.head.valid ?? {} })) {
    if (problems.length >= MOST_PROBLEMS) break;
    if (layer.local && path[0] === 'valid') continue;
    const cite = citeAt(layer, path);
    if (layer.local && cite === undefined) continue;
    if (resolveCite(cite, [layer, ...chain])) continue;
    if (cite === undefined) {
      add(path, undefined, 'a citation', 'Add `cite:` here or on an enclosing key, naming an entry of `sources:`.');
    } else
      add(path, cite, 'a `cite` that names an entry of `sources:`', 'Add the source to the table or mend its name.');
  }
  return problems;
}
