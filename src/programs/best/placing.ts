import type { Measured } from './measured.ts';
import type { LatePlaces, Placed } from './places.ts';
import { BONUS, EARLY, LATE } from './values.ts';

/** A way to give places to jump elements; `sum` is its worth if no rule couples them. */
export interface Placing {
  readonly members: readonly Placed<Measured>[];
  readonly sum: number;
}

/** All choices of `count` members, as [chosen, left]. */
function choices<T>(list: readonly T[], count: number): readonly (readonly [readonly T[], readonly T[]])[] {
  if (count === 0) return [[[], list]];
  const [first, ...rest] = list;
  if (first === undefined || list.length < count) return [];
  return [
    ...choices(rest, count - 1).map(([chosen, left]) => [[first, ...chosen], left] as const),
    ...choices(rest, count).map(([chosen, left]) => [chosen, [first, ...left]] as const),
  ];
}

/** Numbers of jumps to place late that can be best: all that may, unless being late can cost. */
function lateCounts(set: readonly Measured[], { least, most, earning }: LatePlaces): readonly number[] {
  const harmless = set.every((m) => m.bonusGain >= 0 && m.lateGain >= 0);
  const enough = Math.max(least, Math.min(most, earning));
  return harmless ? [enough] : Array.from({ length: most - least + 1 }, (_, i) => least + i);
}

function placingOf(early: readonly Measured[], late: readonly Measured[], bonus: readonly Measured[]): Placing {
  const members = [
    ...early.map((what): Placed<Measured> => ({ what, place: 'early' })),
    ...late.map((what): Placed<Measured> => ({ what, place: 'late' })),
    ...bonus.map((what): Placed<Measured> => ({ what, place: 'bonus' })),
  ];
  const worth = (list: readonly Measured[], place: 0 | 1 | 2): number => list.reduce((s, m) => s + m.mean[place], 0);
  return { members, sum: worth(early, EARLY) + worth(late, LATE) + worth(bonus, BONUS) };
}

/** Every way to place a choice of jump elements, the highest sum first. */
export function placings(set: readonly Measured[], places: LatePlaces): readonly Placing[] {
  const all = lateCounts(set, places).flatMap((count) => {
    const earning = Math.min(places.earning, count);
    return choices(set, earning).flatMap(([bonus, rest]) =>
      choices(rest, count - earning).map(([late, early]) => placingOf(early, late, bonus)),
    );
  });
  return all.sort((a, b) => b.sum - a.sum);
}
