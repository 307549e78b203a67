import { roundedDivision } from './arithmetic.ts';

/** With `trimFrom` marks or more, the `drop` highest and the `drop` lowest are left out. */
export interface PanelRule {
  readonly trimFrom: number;
  readonly drop: number;
}

/**
 * Mean of a panel's values (integers, e.g. hundredths), rounded half away from zero. `null` is a
 * judge without a mark; panel size is the number of marks present. No mark at all: null.
 * A panel that dropping would empty is averaged whole.
 */
export function panelMean(values: readonly (number | null)[], panel: PanelRule): number | null {
  const present = values.filter((value) => value !== null);
  if (present.length === 0) return null;
  const drop = dropped(present.length, panel);
  if (drop > 1) return meanOf(trimmed(present, panel));
  return drop === 1 ? meanWithoutEnds(present) : meanOf(present);
}

const meanOf = (values: readonly number[]): number =>
  roundedDivision(
    values.reduce((sum, value) => sum + value, 0),
    values.length,
  );

/** One highest and one lowest left out, without sorting: this runs for every row of every sheet. */
function meanWithoutEnds(values: readonly number[]): number {
  let sum = 0;
  let lowest = Infinity;
  let highest = -Infinity;
  for (const value of values) {
    sum += value;
    if (value < lowest) lowest = value;
    if (value > highest) highest = value;
  }
  return roundedDivision(sum - lowest - highest, values.length - 2);
}

/** How many marks are left out at each end; none where that would leave nothing. */
function dropped(size: number, panel: PanelRule): number {
  const drop = size >= panel.trimFrom ? panel.drop : 0;
  return size > 2 * drop ? drop : 0;
}

/** The values that count, in no particular order. */
export function trimmed(present: readonly number[], panel: PanelRule): readonly number[] {
  const drop = dropped(present.length, panel);
  return drop === 0 ? present : [...present].sort((a, b) => a - b).slice(drop, present.length - drop);
}
