import type { Layer } from './layer.ts';
import { lazy } from './remember.ts';
import { selectorPaths } from './selectors.ts';
import { isTree, lookUp, merge, type Path, type Tree } from './tree.ts';

/** Files laid over each other: the oldest ancestor first, then the rulebook itself, then its overlays. */
export interface Assembly {
  readonly layer: Layer;
  readonly layers: readonly Layer[];
  /** The head of the rulebook's own file and the merged values of all layers. */
  readonly document: Tree;
}

export function assemble(layer: Layer, ancestors: readonly Layer[], overlays: readonly Layer[]): Assembly {
  const layers = [...ancestors, layer, ...overlays];
  const document = lazy((): Tree => {
    const values = layers.reduce<unknown>((merged, next) => merge(merged, next.values), {});
    return { ...layer.head, ...(isTree(values) ? values : {}) };
  });
  return {
    layer,
    layers,
    get document() {
      return document();
    },
  };
}

/** The last layer that states the value at a path, with the path as it is written there. */
export function providerOf({ layer: own, layers }: Assembly, path: Path): { layer: Layer; path: Path } | null {
  if (path[0] === 'valid') return { layer: own, path };
  for (const candidate of selectorPaths(path)) {
    for (const layer of [...layers].reverse()) {
      if (lookUp(layer.values, candidate).found) return { layer, path: candidate };
    }
  }
  return null;
}
