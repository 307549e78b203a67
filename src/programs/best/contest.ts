import { moments } from '../../forecast/index.ts';
import { contentOf, pmfOfProgram, type Program } from './layout-of.ts';
import { boundOf, exactValue, ROUNDING, type Joint, type TailObjective } from './objective-value.ts';
import type { Setting } from './search.ts';
import { Top } from './top.ts';

/** The best layouts found so far for a chance or quantile, and what a bound must reach to be looked into. */
export class Contest {
  readonly best: Top<Program>;
  readonly objective: TailObjective;
  readonly shouldStop: () => boolean;
  evaluations = 0;
  private readonly setting: Setting;
  private readonly seen = new Set<string>();
  private readonly around: number;

  constructor(setting: Setting, objective: TailObjective, top: number, shouldStop: () => boolean) {
    this.setting = setting;
    this.objective = objective;
    this.shouldStop = shouldStop;
    this.best = new Top<Program>(top);
    const pmf = pmfOfProgram([], setting);
    this.around = pmf.ok ? moments(pmf.value).mean : 0;
  }

  /** Below the last of the list, or equal to it with no higher expected score (elements and falls, hundredths). */
  cannotWin(bound: number, expected: number): boolean {
    const { threshold, tie } = this.best;
    return bound < threshold - ROUNDING || (bound <= threshold + ROUNDING && expected <= tie + 1e-6);
  }

  /** Upper bound of the objective for a sum of parts on cells of `size`. */
  bound(size: number, joints: readonly Joint[], shift = 0): number {
    return boundOf(this.objective, size, this.setting.day.weights, joints, shift, this.best.threshold);
  }

  /** Works out a whole program. */
  evaluate(program: Program): void {
    const name = program.map(({ what, place }) => `${what.item.id}${place}`).join(' ');
    if (this.seen.has(name)) return;
    this.seen.add(name);
    const pmf = pmfOfProgram(program, this.setting);
    if (!pmf.ok) return;
    this.evaluations++;
    const value = exactValue(pmf.value, this.objective);
    this.best.add(contentOf(program), value, moments(pmf.value).mean - this.around, program);
  }
}
