/** Door of the room `season`: what changed for one skater, goals, trends, load. */
export { threeSentences, type LoggedRun, type SkatedEvent, type ThreeSentences } from './three-sentences.ts';
export { bestsOf, type Bests } from './bests.ts';
export {
  callRecords,
  elementHistory,
  levelAttainment,
  type CallRecord,
  type ElementHistory,
  type Execution,
  type LevelRecord,
} from './elements.ts';
export { chanceWithin, goalState, outlookOf, type GoalState, type Outlook, type ScoreGoal } from './goals.ts';
export { LOAD_CAUTIONS, loadByWeek, type LoggedJumps, type WeekLoad } from './load.ts';
export { byKind, inTime, seasonProgram, type SeasonProgram, type Video } from './programs.ts';
export { seasonView, type KindView, type SeasonView } from './season-view.ts';
export { sinceLast, type ElementChange, type SinceLast } from './since-last.ts';
export { trendOf, type Trend } from './trend.ts';
export { standing, usualRange, type Standing, type UsualRange } from './usual.ts';
export { practiceRecord, practiceSentence, type PracticeCount, type PracticeRecord } from './practice.ts';
export { seasonLines } from './words.ts';
