import { toLayer, type RulebookFile } from './layer.ts';
import type { Library } from './library.ts';
import { SELECTED, selectorPaths } from './selectors.ts';
import { formatPath, isTree, leaves, lookUp } from './tree.ts';

/**
 * Values of a file that no category ever gets, because each has a more special record over it: a value for
 * `senior` where `senior women` and `senior men` have one. Not wrong, but hardly what was meant.
 *
 * @param library one that holds the file already.
 * @returns paths as they are written in the file.
 */
export function maskedValues(library: Library, file: RulebookFile): readonly string[] {
  const layer = toLayer(file, true);
  const books = (layer.overlay ?? [layer.id]).flatMap((id) => library.rulebook(id) ?? []);
  return SELECTED.flatMap((family) => {
    const records = layer.values[family];
    return [...leaves({ [family]: isTree(records) ? records : {} })].flatMap(({ path }) => {
      const [, selector, ...rest] = path;
      const reached = books.flatMap(({ categories, document }) =>
        categories.flatMap((category) => {
          const places = selectorPaths([family, category, ...rest]);
          return places.some((place) => place[1] === selector)
            ? [places.find((place) => lookUp(document, place).found)?.[1] === selector]
            : [];
        }),
      );
      return reached.length > 0 && !reached.includes(true) ? [formatPath(path)] : [];
    });
  });
}
