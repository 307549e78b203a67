import { fail, ok, type Problem, type Result } from '../notation/index.ts';
import { checkAssembly } from './check.ts';
import { place, toLayer, type Layer, type RulebookFile } from './layer.ts';
import { assemble, type Assembly } from './assembly.ts';
import { openRulebook } from './rulebook.ts';
import type { Rulebook } from './types.ts';

/** All rulebooks at hand. Immutable: `extend` gives a new library. */
export interface Library {
  /** Ids in order of body and season, abstract ones left out. */
  list(): readonly string[];
  /** The rulebook of an id, assembled when it is asked for first. */
  rulebook(id: string): Rulebook | undefined;
  /**
   * A library with somebody's own files added: new rulebooks, or overlays on known ones. Every value
   * that comes from them is marked `local`. Troubles are located and nothing is added.
   */
  extend(overlays: readonly RulebookFile[]): Result<Library, readonly Problem[]>;
}

interface Shelf {
  readonly layers: ReadonlyMap<string, Layer>;
  readonly overlays: readonly Layer[];
}

/** Ancestors of a layer, oldest first, each once. A circle or a gap is a problem. */
function ancestorsOf(shelf: Shelf, layer: Layer): Result<readonly Layer[]> {
  const found: Layer[] = [];
  const walk = (child: Layer, way: readonly Layer[]): Problem | null => {
    for (const id of child.extends) {
      const parent = shelf.layers.get(id);
      if (!parent || way.includes(parent)) {
        return {
          code: 'rulebook.extends',
          at: place(child.file, ['extends']),
          found: id,
          expected: parent ? 'a rulebook that does not come back to this one' : 'the id of a known rulebook',
          advice: 'See `edgeledger rulebook list` for the ids.',
        };
      }
      const problem = walk(parent, [...way, parent]);
      if (problem) return problem;
      if (!found.includes(parent)) found.push(parent);
    }
    return null;
  };
  const problem = walk(layer, [layer]);
  return problem ? fail(problem) : ok(found);
}

function assemblyOf(shelf: Shelf, layer: Layer): Result<Assembly> {
  const ancestors = ancestorsOf(shelf, layer);
  if (!ancestors.ok) return ancestors;
  const overlays = shelf.overlays.filter((overlay) => overlay.overlay?.includes(layer.id));
  return ok(assemble(layer, ancestors.value, overlays));
}

/** Checks the assemblies that the given layers touch. */
function problemsOf(shelf: Shelf, touched: readonly Layer[]): Problem[] {
  return touched
    .filter((layer) => !layer.abstract)
    .flatMap((layer) => {
      const assembly = assemblyOf(shelf, layer);
      return assembly.ok ? checkAssembly(assembly.value) : [assembly.error];
    });
}

function openLibrary(shelf: Shelf): Library {
  const open = new Map<string, Rulebook>();
  const ids = [...shelf.layers.values()].filter((layer) => !layer.abstract).map((layer) => layer.id);
  return {
    list: () => [...ids].sort(),
    rulebook(id) {
      const known = open.get(id);
      if (known) return known;
      const layer = shelf.layers.get(id);
      if (!layer || layer.abstract) return undefined;
      const assembly = assemblyOf(shelf, layer);
      if (!assembly.ok) return undefined;
      const rulebook = openRulebook(assembly.value);
      open.set(id, rulebook);
      return rulebook;
    },
    extend: (files) => extendShelf(shelf, files),
  };
}

function unknownTargets(shelf: Shelf, overlay: Layer): Problem[] {
  return (overlay.overlay ?? [])
    .filter((id) => !shelf.layers.has(id))
    .map((id) => ({
      code: 'rulebook.overlay',
      at: place(overlay.file, ['overlay']),
      found: id,
      expected: 'the id of a known rulebook',
      advice: 'See `edgeledger rulebook list` for the ids.',
    }));
}

/** The very file that the program brings. */
const isShipped = (shelf: Shelf, layer: Layer): boolean =>
  JSON.stringify(shelf.layers.get(layer.id)?.file.document) === JSON.stringify(layer.file.document);

function sameId(shelf: Shelf, files: readonly Layer[]): Problem[] {
  const seen = new Set(shelf.layers.keys());
  return files
    .filter((layer) => layer.overlay === null)
    .filter((layer) => (seen.has(layer.id) ? true : !seen.add(layer.id)))
    .map((layer) =>
      isShipped(shelf, layer)
        ? {
            code: 'rulebook.shipped',
            at: place(layer.file, ['id']),
            found: layer.id,
            expected: 'a file that is not in the program already',
            advice:
              'This file is shipped with the program word for word and is in force; take it out of your own folder.',
          }
        : {
            code: 'rulebook.id',
            at: place(layer.file, ['id']),
            found: layer.id,
            expected: 'an id that is not taken',
            advice:
              'To change values of that rulebook write `overlay:` in place of `id:`. If this is a file of rulebooks/ that you changed, `npm run build` checks and compiles it.',
          },
    );
}

function extendShelf(shelf: Shelf, files: readonly RulebookFile[]): Result<Library, readonly Problem[]> {
  const added = files.map((file) => toLayer(file, true));
  const next = join(shelf, added);
  const targets = new Set(next.overlays.flatMap((overlay) => overlay.overlay ?? []));
  const touched = [...next.layers.values()].filter((layer) => added.includes(layer) || targets.has(layer.id));
  const problems = [
    ...sameId(shelf, added),
    ...added.flatMap((layer) => unknownTargets(next, layer)),
    ...problemsOf(next, touched),
  ];
  return problems.length > 0 ? fail(problems) : ok(openLibrary(next));
}

function join(shelf: Shelf, added: readonly Layer[]): Shelf {
  const layers = new Map(shelf.layers);
  for (const layer of added) if (layer.overlay === null && !layers.has(layer.id)) layers.set(layer.id, layer);
  return { layers, overlays: [...shelf.overlays, ...added.filter((layer) => layer.overlay !== null)] };
}

const EMPTY: Shelf = { layers: new Map(), overlays: [] };

/** Reads and checks a set of rulebook files; every trouble is located by file, line and path. */
export function loadLibrary(files: readonly RulebookFile[]): Result<Library, readonly Problem[]> {
  const layers = files.map((file) => toLayer(file, false));
  const shelf = join(EMPTY, layers);
  const problems = [...sameId(EMPTY, layers), ...problemsOf(shelf, layers)];
  return problems.length > 0 ? fail(problems) : ok(openLibrary(shelf));
}

/** For files that were checked when they were compiled: no second check. */
export const trustedLibrary = (files: readonly RulebookFile[]): Library =>
  openLibrary(
    join(
      EMPTY,
      files.map((file) => toLayer(file, false)),
    ),
  );
