import type { StepChances } from './step-chances.ts';
import { NO_FEATURES, creditedCount, levelOfFeatures, type SpinCount, type SpinLimits } from './spin-count.ts';
import type { SpinItem } from './spin-items.ts';
import type { Foot } from './turns.ts';

/** Where an item adds to the count. */
interface Place {
  readonly side: keyof SpinCount;
  readonly what: 'variations' | 'gate' | 'plain';
}

/**
 * Exact chance of each level when every variation and feature is credited independently with the
 * chance of its part. Items are added one by one to a distribution over counts, which is all that
 * the level depends on; there are far fewer counts than credit patterns.
 */
export function spinChances(items: readonly SpinItem[], firstFoot: Foot, limits: SpinLimits): StepChances {
  const single = items.filter((item) => !item.onceCredited);
  const groups = groupsOf(
    items.filter((item) => item.onceCredited),
    firstFoot,
  );
  let counts = new Map<string, Weighted>([['', { count: { first: NO_FEATURES, second: NO_FEATURES }, p: 1 }]]);
  for (const item of single) counts = added(counts, item.credit, placeOf(item, firstFoot));
  const chances = { B: 0, 1: 0, 2: 0, 3: 0, 4: 0 };
  for (const { count, p } of counts.values())
    for (const { places, p: q } of outcomesOf(groups)) {
      const placed = places.reduce((best, one) => better(best, plus(count, one), limits), plus(count, []));
      chances[levelOfFeatures(placed, limits)] += p * q;
    }
  return chances;
}

interface Weighted {
  readonly count: SpinCount;
  readonly p: number;
}

const placeOf = (item: SpinItem, firstFoot: Foot): Place => ({
  side: item.foot === firstFoot ? 'first' : 'second',
  what: item.kind === 'variation' ? 'variations' : item.gate ? 'gate' : 'plain',
});

function plus(count: SpinCount, places: readonly Place[]): SpinCount {
  return places.reduce<SpinCount>(
    (sum, { side, what }) => ({ ...sum, [side]: { ...sum[side], [what]: sum[side][what] + 1 } }),
    count,
  );
}

function added(counts: ReadonlyMap<string, Weighted>, credit: number, place: Place): Map<string, Weighted> {
  const next = new Map<string, Weighted>();
  const put = (count: SpinCount, p: number) => {
    if (p === 0) return;
    const key = JSON.stringify(count);
    next.set(key, { count, p: (next.get(key)?.p ?? 0) + p });
  };
  for (const { count, p } of counts.values()) {
    put(count, p * (1 - credit));
    put(plus(count, [place]), p * credit);
  }
  return next;
}

/** One name that is credited once per program: its chance on each foot, and where it adds there. */
interface Group {
  readonly first: { readonly p: number; readonly place: Place };
  readonly second: { readonly p: number; readonly place: Place };
}

function groupsOf(items: readonly SpinItem[], firstFoot: Foot): Group[] {
  return [...new Set(items.map((item) => item.name))].map((name) => {
    const side = (which: keyof SpinCount) => {
      const here = items.filter((item) => item.name === name && placeOf(item, firstFoot).side === which);
      const never = here.reduce((product, item) => product * (1 - item.credit), 1);
      const what = items.some((item) => item.name === name && item.gate) ? ('gate' as const) : ('plain' as const);
      return { p: 1 - never, place: { side: which, what } };
    };
    return { first: side('first'), second: side('second') };
  });
}

/** Every outcome of the once-credited names: the ways to place them (one is chosen), and its chance. */
function outcomesOf(
  groups: readonly Group[],
): { readonly places: readonly (readonly Place[])[]; readonly p: number }[] {
  let outcomes: { places: readonly (readonly Place[])[]; p: number }[] = [{ places: [[]], p: 1 }];
  for (const { first, second } of groups) {
    const ways = [
      { on: [] as Place[], p: (1 - first.p) * (1 - second.p) },
      { on: [first.place], p: first.p * (1 - second.p) },
      { on: [second.place], p: (1 - first.p) * second.p },
      { on: [first.place, second.place], p: first.p * second.p },
    ];
    outcomes = outcomes.flatMap(({ places, p }) =>
      ways
        .filter((way) => way.p > 0)
        .map((way) => ({
          p: p * way.p,
          places: way.on.length === 0 ? places : way.on.flatMap((place) => places.map((so) => [...so, place])),
        })),
    );
  }
  return outcomes;
}

function better(a: SpinCount, b: SpinCount, limits: SpinLimits): SpinCount {
  const worth = (count: SpinCount) => {
    const level = levelOfFeatures(count, limits);
    return (level === 'B' ? 0 : level) * 100 + creditedCount(count, limits);
  };
  return worth(b) > worth(a) ? b : a;
}
