/** Door of the room `season`: what changed for one skater, goals, trends, load. */
export { threeSentences, type LoggedRun, type SkatedEvent, type ThreeSentences } from './three-sentences.ts';
