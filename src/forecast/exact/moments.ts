import type { Node } from '../math/hermite.ts';
import type { TiltedLevel } from './tilted.ts';

/** Mean and spread of one element's score on the sheet, and what it lends to the whole, in hundredths. */
export interface ElementMoments {
  readonly no: number;
  /** Element score as the sheet will print it; the deduction of a fall stands apart from it. */
  readonly mean: number;
  readonly sd: number;
  /** Covariance of element (with its fall's deduction, where deductions are asked) and whole program. */
  readonly covariance: number;
}

/** One branch of one element at one node: chance of the state, of the grade, and what it brings. */
interface Branch {
  readonly p: number;
  readonly points: number;
  readonly deduct: number;
  readonly next: number;
}

function branches({ level, chances }: TiltedLevel, state: number, node: number): readonly Branch[] {
  return (level.arcs[state] ?? []).flatMap((arc, o) => {
    const points = level.values[arc.value]?.points ?? [];
    return (chances[node]?.[o] ?? []).map((p, g) => ({
      p,
      points: points[g] ?? 0,
      deduct: arc.deduct,
      next: arc.next,
    }));
  });
}

/** Chance of each state, and mean of the sum so far times that chance. */
interface Front {
  readonly chance: readonly number[];
  readonly sum: readonly number[];
}

function ahead(front: Front, level: TiltedLevel, node: number): Front {
  const chance = new Array<number>(level.level.statesAfter).fill(0);
  const sum = new Array<number>(level.level.statesAfter).fill(0);
  front.chance.forEach((c, state) => {
    const s = front.sum[state] ?? 0;
    for (const b of branches(level, state, node)) {
      chance[b.next] = (chance[b.next] ?? 0) + c * b.p;
      sum[b.next] = (sum[b.next] ?? 0) + b.p * (s + c * (b.points + b.deduct));
    }
  });
  return { chance, sum };
}

/** Mean of what is still to come, by state before the element. */
function behind(later: readonly number[], level: TiltedLevel, node: number): readonly number[] {
  return level.level.arcs.map((_, state) =>
    branches(level, state, node).reduce((sum, b) => sum + b.p * (b.points + b.deduct + (later[b.next] ?? 0)), 0),
  );
}

/** Mean of all elements with the deductions that are asked, in hundredths: one pass over the outcomes. */
export function meanOf(levels: readonly TiltedLevel[], nodes: readonly Node[]): number {
  return nodes.reduce((mean, { weight }, node) => {
    let later: readonly number[] = new Array<number>(levels.at(-1)?.level.statesAfter ?? 1).fill(0);
    for (const level of levels.toReversed()) later = behind(later, level, node);
    return mean + weight * (later[0] ?? 0);
  }, 0);
}

/** Sums gathered over nodes and states for one element. */
interface Gathered {
  points: number;
  squares: number;
  whole: number;
  product: number;
}

function gather(into: Gathered, front: Front, later: readonly number[], level: TiltedLevel, node: number, w: number) {
  front.chance.forEach((c, state) => {
    const s = front.sum[state] ?? 0;
    for (const b of branches(level, state, node)) {
      const value = b.points + b.deduct;
      into.points += w * c * b.p * b.points;
      into.squares += w * c * b.p * b.points * b.points;
      into.whole += w * c * b.p * value;
      into.product += w * b.p * value * (s + c * (value + (later[b.next] ?? 0)));
    }
  });
}

/**
 * Mean, spread and share of every element, exact under the program-wide rules and the day factor. The
 * covariances add up to the variance of the elements' sum. Cost: a few passes over the outcomes.
 */
export function elementMoments(levels: readonly TiltedLevel[], nodes: readonly Node[]): readonly ElementMoments[] {
  const sums: Gathered[] = levels.map(() => ({ points: 0, squares: 0, whole: 0, product: 0 }));
  let mean = 0;
  nodes.forEach(({ weight }, node) => {
    const later: (readonly number[])[] = [];
    let back: readonly number[] = new Array<number>(levels.at(-1)?.level.statesAfter ?? 1).fill(0);
    for (let i = levels.length - 1; i >= 0; i--) {
      later[i] = back;
      const level = levels[i];
      if (level) back = behind(back, level, node);
    }
    mean += weight * (back[0] ?? 0);
    let front: Front = { chance: [1], sum: [0] };
    levels.forEach((level, i) => {
      const into = sums[i];
      if (into) gather(into, front, later[i] ?? [], level, node, weight);
      front = ahead(front, level, node);
    });
  });
  return levels.map(({ level }, i) => {
    const s = sums[i] ?? { points: 0, squares: 0, whole: 0, product: 0 };
    return {
      no: level.element.no,
      mean: s.points,
      sd: Math.sqrt(Math.max(0, s.squares - s.points ** 2)),
      covariance: s.product - s.whole * mean,
    };
  });
}
