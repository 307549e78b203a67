import type { AgeGroup } from '../../notation/index.ts';
import type { EarlierProgram } from './skated.ts';

/** Weight that one event keeps for the next one. The young change within weeks, so theirs fades faster. */
const KEPT: Readonly<Record<AgeGroup, number>> = {
  senior: 0.9,
  junior: 0.85,
  'advanced novice': 0.75,
  'intermediate novice': 0.7,
  'basic novice': 0.7,
  novice: 0.75,
  intermediate: 0.7,
  juvenile: 0.65,
};

/** Weight of each program: 1 for the latest event, less by a fixed share for every event before it. */
export function recencyWeights(programs: readonly EarlierProgram[], ageGroup: AgeGroup): readonly number[] {
  const times = [...new Set(programs.map((p) => p.when))].sort((a, b) => b - a);
  return programs.map((p) => KEPT[ageGroup] ** times.indexOf(p.when));
}
