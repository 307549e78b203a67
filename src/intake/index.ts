/** Door of the room `intake`: published sheets of any form -> protocols, with what is in doubt. */
export type { Token, TokenAlternative } from './token.ts';
export type { Doubt, Given, SheetReading } from './recognise/reading.ts';
export { createRecogniser, type Recogniser, type RecogniserOptions } from './recognise/stream.ts';
export {
  readSheet,
  readSheetText,
  sheetForm,
  type IntakeItem,
  type IntakeOptions,
  type PageSource,
  type SheetForm,
  type SheetInput,
} from './read-sheet.ts';
export { gatherSheets, type SheetRead } from './gather.ts';
export { eventTables, type EventEntry, type EventTable } from './event.ts';
export { readColumnMap, ROLES, type ColumnMap, type Role } from './forms/records.ts';
