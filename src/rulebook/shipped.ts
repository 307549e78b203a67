import { trustedLibrary, type Library } from './library.ts';
import { SHIPPED } from './shipped/rulebooks.generated.ts';

let library: Library | null = null;

/** The rulebooks that come with the program, checked when they were compiled; opened once. */
export function shippedLibrary(): Library {
  library ??= trustedLibrary(SHIPPED.map(([path, text]) => ({ path, document: JSON.parse(text) as unknown })));
  return library;
}
