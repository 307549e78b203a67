/** Door of the room `notation`: element codes, step and spin notation <-> values. */
export * from './problem.ts';
export * from './vocabulary.ts';
export type * from './element.ts';
export { parseCode } from './parse-code.ts';
export { MAX_JUMPS } from './parse-jumps.ts';
export { formatCode, formatElement, formatJump } from './format-code.ts';
export { parseFeedback, formatFeedback } from './feedback.ts';
export { applyInfo, parseInfo, type Info, type InfoCall, type Placement } from './info.ts';
export { clock } from './clock.ts';
export { isDay } from './day.ts';
export { contentKey, sameElement, withoutCalls } from './compare.ts';
export { categoryParts, parseCategory } from './category.ts';
export { pronouns, type Pronouns } from './person-words.ts';
export { parseSeason, parseSegment, seasonFrom } from './season.ts';
export { plainSpelling } from './spelling.ts';
