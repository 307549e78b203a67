/** Door of the room `notation`: element codes, step and spin notation <-> values. */
export * from './problem.ts';
export * from './vocabulary.ts';
export type * from './element.ts';
