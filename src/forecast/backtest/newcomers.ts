/** First appearances at one event of one category, in units of the field's spread. */
interface Debuts {
  readonly when: number;
  readonly category: string;
  readonly seasonPlace: number;
  n: number;
  sum: number;
  squares: number;
}

/** Where and when a newcomer appears. */
export interface Appearance {
  readonly when: number;
  readonly category: string;
  /** Events of the same season that lie before, in the file. */
  readonly seasonPlace: number;
  /** Place of the event among all events of the file. */
  readonly event: number;
}

const KEPT_PER_EVENT = 0.9;
const SEASON_REACH = 3;
const OTHER_CATEGORY = 0.5;
/** Debuts at one event that count as half of an event of their own. */
const CROWD = 4;
/** Weight of "like the field", in events. */
const LIKE_FIELD = 1;
/** Variance between events of the debuts' mean, and the events that this belief is worth. */
const BETWEEN = { variance: 0.8, strength: 3 };
/** Variance within an event, and the debuts that this belief is worth. */
const WITHIN = { variance: 0.9, strength: 10 };

/**
 * A skater of whom no earlier protocol exists comes from the field at large, and fields differ from
 * event to event: first appearances at the start of a season are of another kind than those at
 * championships. Earlier first appearances say where to expect her, those at a like place of the season
 * more than others; as events differ, the range stays wide.
 */
export class Newcomers {
  private readonly events = new Map<string, Debuts & { readonly event: number }>();

  add(at: Appearance, z: number): void {
    const key = `${at.when} ${at.category}`;
    const debuts = this.events.get(key) ?? { ...at, n: 0, sum: 0, squares: 0 };
    this.events.set(key, debuts);
    debuts.n += 1;
    debuts.sum += z;
    debuts.squares += z * z;
  }

  /** Mean and spread of a first appearance, in units of the field's spread. */
  expect(at: Appearance): { readonly mean: number; readonly sd: number } {
    const seen = [...this.events.values()].map((d) => ({ mean: d.sum / d.n, weight: weightOf(d, at) }));
    const weight = seen.reduce((sum, d) => sum + d.weight, 0);
    const mean = seen.reduce((sum, d) => sum + d.weight * d.mean, 0) / (weight + LIKE_FIELD);
    const scatter = seen.reduce((sum, d) => sum + d.weight * (d.mean - mean) ** 2, 0);
    const between = (BETWEEN.strength * BETWEEN.variance + scatter) / (BETWEEN.strength + weight);
    return { mean, sd: Math.sqrt(between + this.within()) };
  }

  private within(): number {
    let squares = 0;
    let df = 0;
    for (const d of this.events.values()) {
      squares += d.squares - d.sum ** 2 / d.n;
      df += d.n - 1;
    }
    return (squares + WITHIN.strength * WITHIN.variance) / (df + WITHIN.strength);
  }
}

function weightOf(debuts: Debuts & { readonly event: number }, at: Appearance): number {
  const recent = KEPT_PER_EVENT ** (at.event - debuts.event);
  const alike = Math.exp(-Math.abs(at.seasonPlace - debuts.seasonPlace) / SEASON_REACH);
  const category = at.category === debuts.category ? 1 : OTHER_CATEGORY;
  return (recent * alike * category * debuts.n) / (debuts.n + CROWD);
}
