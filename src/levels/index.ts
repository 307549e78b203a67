/** Door of the room `levels`: step sequences and spins -> level; letters -> what they prove. */
export * from './feedback-steps.ts';
export * from './feedback-spin.ts';
