/** Door of the room `rulebook`: the rules of a season as data, with the source of every value. */
export * from './types.ts';
export type { RulebookFile } from './layer.ts';
export { loadLibrary, type Library } from './library.ts';
export { shippedLibrary } from './shipped.ts';
export { chooseRules } from './choose.ts';
export { diffRows, diffRulebooks, type Difference, type RowDifference } from './diff.ts';
export { UNKNOWN_CONTENT } from './unknown-content.ts';
export { maskedValues } from './masked.ts';
