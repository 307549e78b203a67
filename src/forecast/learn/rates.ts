/** Weighted counts by name. */
export type Counts<K extends string> = Readonly<Record<K, number>>;

/** All names with 0. */
export const zeroCounts = <K extends string>(names: readonly K[]): Record<K, number> => {
  const counts: Partial<Record<K, number>> = {};
  for (const name of names) counts[name] = 0;
  return counts as Record<K, number>;
};

/** Sum of the counts. */
export const totalOf = <K extends string>(counts: Counts<K>): number =>
  Object.values<number>(counts).reduce((sum, n) => sum + n, 0);

/**
 * Posterior mean of a Dirichlet-multinomial: her own weighted counts beside `strength` tries at the
 * rates of the prior. With no tries of her own it is the prior; a prior without counts is uniform.
 */
export function shrunk<K extends string>(own: Counts<K>, prior: Counts<K>, strength: number): Record<K, number> {
  const names = Object.keys(own) as K[];
  const ownTotal = totalOf(own);
  const priorTotal = totalOf(prior);
  const rates = zeroCounts(names);
  for (const name of names) {
    const base = priorTotal > 0 ? prior[name] / priorTotal : 1 / names.length;
    rates[name] = (own[name] + strength * base) / (ownTotal + strength);
  }
  return rates;
}
