/** Door of the room `scoring`: marks -> points, exact; the audit of a protocol. */
export type * from './protocol.ts';
export * from './layout.ts';
