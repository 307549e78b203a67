/** Door of the room `reading`: a protocol, explained: ledger by cause, letters, findings, advice. */
export { CAUSES, CAUSE_NAMES, causeOrder, isFieldOfPlay, type Cause } from './causes.ts';
export * from './types.ts';
export { read, type ReadOptions } from './read.ts';
export { readingForm } from './form.ts';
export { printReading, type PrintOptions } from './print.ts';
export { fieldOf, SMALLEST_FIELD, type Field } from './field.ts';
export { readTold, toldForm, toldOf, type ToldSheet } from './told.ts';
export { toldInWords, toldUse } from './letter-words.ts';
export {
  readKept,
  toldIn,
  type Beside,
  type KeptField,
  type KeptLayout,
  type KeptNote,
  type KeptReading,
  type KeptSheet,
} from './kept.ts';
export { layoutFor, layoutNotUsed } from './layout-for.ts';
export { HOW_WE_TRAIN, skaterAdvice, skaterDate, skaterEnd, skaterTitle, skaterWins } from './skater-words.ts';
