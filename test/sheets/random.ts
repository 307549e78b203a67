/** A reproducible source of randomness for invented sheets, blurred pictures and mutations. */
export interface Random {
  /** Whole number from 0 to n - 1. */
  below(n: number): number;
  /** Roughly normal, mean 0 and spread 1. */
  normal(): number;
  /** The nearest whole number within the bounds. */
  whole(value: number, min: number, max: number): number;
  pick<T>(list: readonly T[]): T;
}

export function randomFrom(seed: number): Random {
  let state = seed >>> 0 || 1;
  const unit = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  const below = (n: number): number => Math.floor(unit() * n);
  return {
    below,
    normal: () => (unit() + unit() + unit() + unit() - 2) * Math.sqrt(3),
    whole: (value, min, max) => Math.min(max, Math.max(min, Math.round(value))),
    pick: (list) => {
      const item = list[below(list.length)];
      if (item === undefined) throw new Error('nothing to pick from');
      return item;
    },
  };
}
