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
  const kept = trimmed(present, panel);
  return roundedDivision(
    kept.reduce((sum, value) => sum + value, 0),
    kept.length,
  );
}

/** The values that count, in no particular order. */
export function trimmed(present: readonly number[], panel: PanelRule): readonly number[] {
  const drop = present.length >= panel.trimFrom ? panel.drop : 0;
  if (drop === 0 || present.length <= 2 * drop) return present;
  return [...present].sort((a, b) => a - b).slice(drop, present.length - drop);
}
