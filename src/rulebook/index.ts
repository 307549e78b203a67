/** Door of the room `rulebook`: the rules of a season as data, with the source of every value. */
export * from './types.ts';
