import type { Element } from '../../notation/index.ts';
import { levelFamily, levelName } from './level-status.ts';
import { firstJump, matchPlan } from './match.ts';
import { LEVEL_FAMILIES, LEVEL_NAMES, type GradeFigures, type LevelFamily, type Priors } from './priors.ts';
import { zeroCounts } from './rates.ts';
import type { EarlierProgram, Skated } from './skated.ts';
import {
  FIRST,
  JUMP_CLASSES,
  SECOND,
  SEVERITIES,
  followerOf,
  jumpClass,
  jumpTry,
  secondMoved,
  severityOf,
  type JumpClass,
} from './status.ts';

const byName = <K extends string, V>(names: readonly K[], make: () => V): Record<K, V> => {
  const table: Partial<Record<K, V>> = {};
  for (const name of names) table[name] = make();
  return table as Record<K, V>;
};

/** Sums from which a mean and a spread are drawn at the end. */
class Grades {
  n = 0;
  private sum = 0;
  private squares = 0;

  add(grade: number | null): void {
    if (grade === null) return;
    this.n += 1;
    this.sum += grade;
    this.squares += grade * grade;
  }

  /** With `weight` grades of `fallback` mixed in, so that a rare class is not taken from one grade. */
  figures(fallback: GradeFigures, weight = 4): GradeFigures {
    const n = this.n + weight;
    const mean = (this.sum + weight * fallback.mean) / n;
    const square = (this.squares + weight * (fallback.sd ** 2 + fallback.mean ** 2)) / n;
    return { n: this.n, mean, sd: Math.sqrt(Math.max(0.0025, square - mean ** 2)) };
  }
}

/** Grades in general, by how it went: where a class has hardly any tries. In shares of the scale. */
const FALLBACK: Readonly<Record<(typeof SEVERITIES)[number], GradeFigures>> = {
  ok: { n: 0, mean: 0.15, sd: 0.3 },
  doubt: { n: 0, mean: -0.05, sd: 0.3 },
  short: { n: 0, mean: -0.45, sd: 0.3 },
  down: { n: 0, mean: -0.7, sd: 0.2 },
  pop: { n: 0, mean: -0.2, sd: 0.35 },
  fall: { n: 0, mean: -0.97, sd: 0.06 },
};
const LEVEL_FALLBACK: GradeFigures = { n: 0, mean: 0.2, sd: 0.25 };

/** Counting tables that grow while programs are walked through. */
class Tally {
  readonly first = byName(JUMP_CLASSES, () => zeroCounts(FIRST));
  readonly second = byName(JUMP_CLASSES, () => zeroCounts(SECOND));
  readonly edge = zeroCounts(['none', '!', 'e'] as const);
  readonly fall = byName(JUMP_CLASSES, () => zeroCounts(['fall', 'stood'] as const));
  readonly jumpGrade = byName(JUMP_CLASSES, () => byName(SEVERITIES, () => new Grades()));
  readonly levels = byName(LEVEL_FAMILIES, () => zeroCounts(LEVEL_NAMES));
  readonly reduced = zeroCounts(['V', 'full'] as const);
  readonly levelGrade = byName(LEVEL_FAMILIES, () => new Grades());
  readonly otherDeduction = zeroCounts(['some', 'none'] as const);

  /** A try of something that was done clean the time before: what became of it. */
  jump(planned: Element, skated: Skated, moved: boolean): void {
    const first = firstJump(planned);
    const one = jumpTry(planned, skated, moved);
    if (first === undefined || one === undefined) return;
    const kind = jumpClass(first);
    this.first[kind][one.first] += 1;
    this.fall[kind][one.fall ? 'fall' : 'stood'] += 1;
    this.jumpGrade[kind][severityOf(one)].add(one.grade);
    if (first.name === 'F' || first.name === 'Lz') this.edge[one.edge ?? 'none'] += 1;
    const follower = followerOf(planned);
    if (follower !== undefined && one.second !== null) this.second[jumpClass(follower)][one.second] += 1;
  }

  leveled({ element, grade }: Skated): void {
    const family = levelFamily(element);
    if (family === null) return;
    this.levels[family][levelName(element)] += 1;
    this.levelGrade[family].add(grade);
    if (element.kind === 'spin' && element.position === 'Co') this.reduced[element.v > 0 ? 'V' : 'full'] += 1;
  }

  deductions({ protocol, skated }: EarlierProgram): void {
    if (protocol.deductions === null) return;
    const falls = skated.filter((s) => s.fall).length;
    this.otherDeduction[-protocol.deductions.total > falls * 100 ? 'some' : 'none'] += 1;
  }
}

/** Executed as it was meant, as far as the sheet says. */
const clean = (skated: Skated): boolean => {
  const one = jumpTry(skated.element, skated);
  return one !== undefined && !skated.fall && one.first !== '<' && one.first !== '<<' && (skated.grade ?? -1) > -0.4;
};

function tallyPair(tally: Tally, before: EarlierProgram, after: EarlierProgram): void {
  const planned = before.skated.filter(clean);
  const tries = matchPlan(
    planned.map((s) => s.element),
    after.skated,
  );
  const moved = secondMoved(
    before.skated.map((s) => s.element),
    after.skated,
  );
  planned.forEach((plan, i) => {
    const hit = tries[i];
    if (hit != null) tally.jump(plan.element, hit, moved);
  });
}

/** Spread of component marks between skaters and within one, from programs with marks. */
function componentFigures(groups: readonly (readonly EarlierProgram[])[]): Priors['components'] {
  const byField = new Map<string, { means: number[]; within: number; df: number; n: number }>();
  for (const group of groups) {
    const marks = group.flatMap(({ protocol }) => meanComponent(protocol) ?? []);
    const [first] = group;
    if (first === undefined || marks.length === 0) continue;
    const key = `${first.protocol.category ?? ''} ${first.protocol.segment ?? ''}`;
    const field = byField.get(key) ?? { means: [], within: 0, df: 0, n: 0 };
    byField.set(key, field);
    const mean = marks.reduce((sum, m) => sum + m, 0) / marks.length;
    field.means.push(mean);
    field.n += marks.length;
    field.within += marks.reduce((sum, m) => sum + (m - mean) ** 2, 0);
    field.df += marks.length - 1;
  }
  return Object.fromEntries(
    [...byField].map(([key, { means, within, df, n }]) => {
      const mean = means.reduce((sum, m) => sum + m, 0) / means.length;
      const spread = means.reduce((sum, m) => sum + (m - mean) ** 2, 0) / Math.max(1, means.length - 1);
      return [key, { n, mean, between: Math.sqrt(spread), within: Math.sqrt((within + 5 * 0.09) / (df + 5)) }];
    }),
  );
}

/** Mean component score of a sheet in marks; null without components. */
export function meanComponent(protocol: EarlierProgram['protocol']): number | null {
  const scores = protocol.components.flatMap(({ score, marks }) => {
    const given = marks.filter((mark) => mark !== null);
    if (score !== null) return [score];
    return given.length === 0 ? [] : [given.reduce((sum, m) => sum + m, 0) / given.length];
  });
  return scores.length === 0 ? null : scores.reduce((sum, s) => sum + s, 0) / scores.length / 100;
}

/** Spread between skaters of what their grades differ from the field's. */
function skaterSpread(groups: readonly (readonly EarlierProgram[])[]): number {
  const means = groups.flatMap((group) => {
    const grades = group.flatMap(({ skated }) => skated.flatMap((s) => s.grade ?? []));
    return grades.length < 5 ? [] : [grades.reduce((sum, g) => sum + g, 0) / grades.length];
  });
  if (means.length < 5) return 0.15;
  const mean = means.reduce((sum, m) => sum + m, 0) / means.length;
  return Math.sqrt(means.reduce((sum, m) => sum + (m - mean) ** 2, 0) / (means.length - 1));
}

/**
 * Spread of the day factor, in shares of the scale. `day`: from the published correlations between the
 * elements of one program (0.03 to 0.08 for jumps, about 0.2 for spins and steps). `level`: what had to
 * be added, over the square root of her programs plus a half, for the ranges of programs skated again to
 * hold what came; see docs/calibration.md.
 */
const FORM = { day: 0.1, level: 0.45 };

const keyOf = ({ protocol }: EarlierProgram): string =>
  `${protocol.skater ?? ''} ${protocol.category ?? ''} ${protocol.segment ?? ''}`;

/**
 * Gathers priors program by program, in order of time: what became of jumps that were done clean the
 * time before, levels, grades, components, deductions. With no program every figure is a wide default.
 */
export class PriorEstimator {
  private readonly tally = new Tally();
  private readonly groups = new Map<string, EarlierProgram[]>();
  private programs = 0;

  add(program: EarlierProgram): void {
    const key = keyOf(program);
    const group = this.groups.get(key) ?? [];
    this.groups.set(key, group);
    const before = group.at(-1);
    if (before !== undefined && before.when < program.when) tallyPair(this.tally, before, program);
    group.push(program);
    this.programs += 1;
    for (const skated of program.skated) this.tally.leveled(skated);
    this.tally.deductions(program);
  }

  /** The priors so far; `source` says in words where the programs come from. */
  priors(source: string): Priors {
    const { tally } = this;
    const groups = [...this.groups.values()];
    const grades = (kind: JumpClass) => byEach(SEVERITIES, (s) => tally.jumpGrade[kind][s].figures(FALLBACK[s]));
    return {
      source,
      programs: this.programs,
      first: tally.first,
      second: tally.second,
      edge: tally.edge,
      fall: tally.fall,
      jumpGrade: byEach(JUMP_CLASSES, grades),
      levels: tally.levels,
      reduced: tally.reduced,
      levelGrade: byEach(LEVEL_FAMILIES, (f: LevelFamily) => tally.levelGrade[f].figures(LEVEL_FALLBACK)),
      skaterGradeSd: skaterSpread(groups),
      components: componentFigures(groups),
      otherDeduction: tally.otherDeduction,
      form: FORM,
    };
  }
}

/** Estimates priors from any number of programs, in any order. */
export function estimatePriors(programs: readonly EarlierProgram[], source: string): Priors {
  const estimator = new PriorEstimator();
  for (const program of [...programs].sort((a, b) => a.when - b.when)) estimator.add(program);
  return estimator.priors(source);
}

const byEach = <K extends string, V>(names: readonly K[], make: (name: K) => V): Record<K, V> => {
  const table: Partial<Record<K, V>> = {};
  for (const name of names) table[name] = make(name);
  return table as Record<K, V>;
};
