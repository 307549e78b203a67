import type { ChoreoElement, Element, Level, SpinElement, StepElement } from '../../notation/index.ts';
import type { GoeScale } from '../../rulebook/index.ts';
import type { SkatedOutcome } from '../exact/program.ts';
import { nextGrade, onScale } from './grades.ts';
import { levelFamily, levelName } from './level-status.ts';
import { LEVEL_NAMES, type LevelFamily, type LevelName, type Priors } from './priors.ts';
import { shrunk, zeroCounts } from './rates.ts';

/** A spin or sequence of hers with its weight. */
export interface WeightedLevel {
  readonly element: Element;
  readonly grade: number | null;
  readonly weight: number;
}

type Leveled = SpinElement | StepElement | ChoreoElement;

const LEVEL_STRENGTH = 4;
const GRADE_STRENGTH = 4;
const RARE = 0.003;

const rank = (level: LevelName): number => LEVEL_NAMES.indexOf(level);

/** Levels above the highest that can be reached count as that one. */
function capped(rates: Record<LevelName, number>, highest: LevelName): Record<LevelName, number> {
  const result = zeroCounts(LEVEL_NAMES);
  for (const name of LEVEL_NAMES) result[rank(name) > rank(highest) ? highest : name] += rates[name];
  return result;
}

function levelRates(family: LevelFamily, own: readonly WeightedLevel[], priors: Priors): Record<LevelName, number> {
  const counts = zeroCounts(LEVEL_NAMES);
  for (const { element, weight } of own) counts[levelName(element)] += weight;
  return shrunk(counts, priors.levels[family], LEVEL_STRENGTH);
}

/** Chance of `V`; only combination spins with change of foot are reduced in the data known. */
function reducedRate(planned: Leveled, own: readonly WeightedLevel[], priors: Priors): number {
  if (planned.kind !== 'spin' || planned.position !== 'Co') return 0;
  const counts = zeroCounts(['V', 'full'] as const);
  for (const { element, weight } of own) {
    if (element.kind === 'spin') counts[element.v > 0 ? 'V' : 'full'] += weight;
  }
  return shrunk(counts, priors.reduced, LEVEL_STRENGTH).V;
}

const levelOf = (name: LevelName): Level | null =>
  name === 'none' ? null : name === 'B' ? 'B' : (([1, 2, 3, 4] as const).find((n) => String(n) === name) ?? null);

function withLevel(planned: Leveled, name: LevelName, v: 0 | 1): Element {
  const level = levelOf(name);
  return planned.kind === 'spin' ? { ...planned, level, v: level === null ? 0 : v } : { ...planned, level };
}

/**
 * Outcomes of a planned spin or sequence: the level that the panel confirms, `V`, and the grade. No
 * level above the planned one and above the category's cap; a code without level plans the highest.
 */
export function levelOutcomes(
  planned: Leveled,
  own: readonly WeightedLevel[],
  priors: Priors,
  scale: GoeScale,
  given: { readonly offset: number; readonly grade: number | null; readonly cap: number | null },
): readonly SkatedOutcome[] {
  const family = levelFamily(planned) ?? 'spin';
  const top: LevelName = planned.kind === 'choreo' ? '1' : '4';
  const wanted = planned.level === null ? top : levelName(planned);
  const limit = given.cap === null ? top : (LEVEL_NAMES.find((name) => name === String(given.cap)) ?? top);
  const highest = rank(wanted) < rank(limit) ? wanted : limit;
  const rates = capped(levelRates(family, own, priors), highest);
  const figures = priors.levelGrade[family];
  const graded = own.flatMap(({ grade, weight }) => (grade === null ? [] : [{ grade, weight }]));
  const learnt = nextGrade({ mean: figures.mean + given.offset, sd: figures.sd, strength: GRADE_STRENGTH }, graded);
  const grades = onScale(given.grade === null ? learnt : { ...learnt, centre: given.grade / scale.max }, scale);
  const v = reducedRate(planned, own, priors);
  const list = LEVEL_NAMES.flatMap((name) => [
    { p: rates[name] * (1 - v), element: withLevel(planned, name, 0), grades, fall: false },
    { p: rates[name] * v, element: withLevel(planned, name, 1), grades, fall: false },
  ]).filter(({ p }) => p >= RARE);
  const total = list.reduce((sum, o) => sum + o.p, 0);
  return list.map((o) => ({ ...o, p: o.p / total }));
}
