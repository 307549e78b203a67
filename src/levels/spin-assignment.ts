import type { SpinRules } from '../rulebook/index.ts';
import { expectedOver } from './step-chances.ts';
import type { CalledLevel } from './step-assess.ts';
import { mixedChances, statesAfter, type SpentState } from './program-spins.ts';
import { spinLevel } from './spin-level.ts';
import type { Spin } from './spin.ts';

/** Worth of a level of a spin, by its code without level and V, e.g. base value in hundredths. */
export type SpinWorth = (spin: Spin, level: CalledLevel) => number | null;

export interface Assignment {
  /** The spins with only the features and variations that are to be done in them. */
  readonly spins: readonly Spin[];
  /** What to leave out: index of the spin, of the part, and the name. */
  readonly left: readonly { readonly spin: number; readonly index: number; readonly name: string }[];
  /** Expected worth of all spins together, and of the spins as written. */
  readonly expected: number;
  readonly before: number;
}

/** Choices per spin are the subsets of its contested places; with more than this many nothing is tried. */
const MAX_CONTESTED = 10;

/**
 * Which spin should carry which feature, when several could: what counts once per program is used up
 * by the first attempt, so it should be done where it helps most. `spins` hold everything the skater
 * can do; the best choice of what to leave out is found by a search over the spins in skating order
 * that remembers what has been spent. null where a worth is not known or too much is contested.
 */
export function assignFeatures(spins: readonly Spin[], rules: SpinRules, worth: SpinWorth): Assignment | null {
  const contested = contestedNames(spins);
  if (spins.some((spin) => contestedPlaces(spin, contested).length > MAX_CONTESTED)) return null;
  const known = new Map<string, Best | null>();
  const start: readonly SpentState[] = [{ spent: new Set(), p: 1 }];
  const best = bestFrom(0, start);
  const before = worthAsWritten(spins, rules, worth);
  if (best === null || before === null) return null;
  return { spins: best.spins, left: leftOut(spins, best.spins), expected: best.expected, before };

  function bestFrom(place: number, states: readonly SpentState[]): Best | null {
    const spin = spins[place];
    if (spin === undefined) return { spins: [], expected: 0 };
    const key = `${place} ${keyOf(states)}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    let best: Best | null = null;
    for (const choice of choicesFor(spin, contested)) {
      const here = expectedOver(mixedChancesOf(choice, rules, states), (level) => worth(choice, level));
      const rest = here === null ? null : bestFrom(place + 1, statesAfter(choice, rules, states));
      if (here === null || rest === null) return null;
      // The first choice leaves nothing out: it stays unless another is really better.
      if (best === null || here + rest.expected > best.expected + 1e-9)
        best = { spins: [choice, ...rest.spins], expected: here + rest.expected };
    }
    known.set(key, best);
    return best;
  }
}

interface Best {
  readonly spins: readonly Spin[];
  readonly expected: number;
}

/** One variation or feature at its place in a spin. */
interface Place {
  readonly index: number;
  readonly name: string;
}

const placesOf = (spin: Spin): Place[] =>
  spin.parts.flatMap((part, index) =>
    [part.variation, ...part.features].flatMap((name) => (name === null ? [] : [{ index, name }])),
  );

/** Names that stand at more than one place, or were used before: only about these there is a choice. */
function contestedNames(spins: readonly Spin[]): ReadonlySet<string> {
  const seen = new Set(spins.flatMap((spin) => spin.used));
  const contested = new Set<string>();
  for (const { name } of spins.flatMap(placesOf)) {
    if (seen.has(name)) contested.add(name);
    seen.add(name);
  }
  return contested;
}

const contestedPlaces = (spin: Spin, contested: ReadonlySet<string>): Place[] =>
  placesOf(spin).filter(({ name }) => contested.has(name));

/** The spin with every subset of its contested places left out, the whole spin first. */
function choicesFor(spin: Spin, contested: ReadonlySet<string>): Spin[] {
  const places = contestedPlaces(spin, contested);
  return Array.from({ length: 2 ** places.length }, (_, bits) =>
    without(
      spin,
      places.filter((__, n) => ((bits >> n) & 1) === 1),
    ),
  );
}

function without(spin: Spin, places: readonly Place[]): Spin {
  const isOut = (index: number, name: string | null) => places.some((one) => one.index === index && one.name === name);
  const parts = spin.parts.map((part, index) => ({
    ...part,
    variation: isOut(index, part.variation) ? null : part.variation,
    features: part.features.filter((name) => !isOut(index, name)),
  }));
  return { ...spin, parts };
}

/** A spin without value has no level, whatever is credited. */
function mixedChancesOf(spin: Spin, rules: SpinRules, states: readonly SpentState[]) {
  const { level, chances } = spinLevel(spin, rules);
  return level === 'none' ? chances : mixedChances(spin, rules, states);
}

function worthAsWritten(spins: readonly Spin[], rules: SpinRules, worth: SpinWorth): number | null {
  let states: readonly SpentState[] = [{ spent: new Set(), p: 1 }];
  let sum = 0;
  for (const spin of spins) {
    const here = expectedOver(mixedChancesOf(spin, rules, states), (level) => worth(spin, level));
    if (here === null) return null;
    sum += here;
    states = statesAfter(spin, rules, states);
  }
  return sum;
}

const keyOf = (states: readonly SpentState[]): string =>
  states.map(({ spent, p }) => `${[...spent].sort().join('+')}:${p}`).join(' ');

function leftOut(written: readonly Spin[], chosen: readonly Spin[]): Assignment['left'] {
  return written.flatMap((spin, place) => {
    const kept = chosen[place];
    const still = new Set(kept === undefined ? [] : placesOf(kept).map(({ index, name }) => `${index} ${name}`));
    return placesOf(spin)
      .filter(({ index, name }) => !still.has(`${index} ${name}`))
      .map((one) => ({ spin: place, ...one }));
  });
}
