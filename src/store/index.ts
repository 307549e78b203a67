/** Door of the room `store`: what a coach keeps, on SQLite or PostgreSQL. */
export { connect, type Connection } from './connect.ts';
export { exportLines, readExport } from './exchange.ts';
export { heldProtocols, type Held } from './held.ts';
export { importText } from './import.ts';
export * from './kinds.ts';
export { people, type Person, type PersonProtocol } from './people.ts';
export type { Edit } from './journal.ts';
export { recordStore, type ListQuery, type Store } from './records.ts';
export { hashOf, sheetStore, type Sheet, type SheetStore } from './sheets.ts';
