import type { ChosenRules, GoeScale, Hundredths } from '../../rulebook/index.ts';
import { sumOrNull } from '../arithmetic.ts';
import { elementValue, type ElementValue } from '../element-value.ts';
import { goeOfMarks } from '../goe.ts';
import { panelMean, type PanelRule } from '../panel.ts';
import type { Protocol, ProtocolComponent, ProtocolElement } from '../protocol.ts';
import { componentPoints } from '../segment.ts';
import { calledElement, type CalledElement } from './called.ts';

/** Expected figures of an element, beside what they come from. */
export interface MeasuredElement {
  readonly printed: ProtocolElement;
  readonly called: CalledElement;
  readonly value: ElementValue | null;
  readonly base: Hundredths | null;
  readonly goe: Hundredths | null;
  /** The grade was computed from marks; false: the printed figure stands unchecked. */
  readonly goeChecked: boolean;
  readonly score: Hundredths | null;
  /** Indexes of marks that the season's scale does not have. */
  readonly impossible: readonly number[];
}

export interface MeasuredComponent {
  readonly printed: ProtocolComponent;
  readonly score: Hundredths | null;
  readonly scoreChecked: boolean;
  readonly factor: Hundredths | null;
  /** Score times factor, rounded. */
  readonly points: Hundredths | null;
  readonly impossible: readonly number[];
}

/** An element as called with its value in the season; it does not depend on the panel. */
export interface ValuedElement {
  readonly printed: ProtocolElement;
  readonly called: CalledElement;
  readonly value: ElementValue | null;
}

export function valueElements(protocol: Protocol, rules: ChosenRules): readonly ValuedElement[] {
  return protocol.elements.map((printed) => {
    const called = calledElement(printed, rules.values);
    const value = called.element === null ? null : elementValue(rules.values, called.element, { half: called.half });
    return { printed, called, value };
  });
}

/** Expected figures of one element. A figure that nothing on the sheet gives stands as printed. */
export function measureElement(valued: ValuedElement, scale: GoeScale, panel: PanelRule): MeasuredElement {
  const { printed, value } = valued;
  const impossible = printed.marks.flatMap((mark, i) =>
    mark !== null && (mark < scale.min || mark > scale.max) ? [i] : [],
  );
  const base = value?.base ?? printed.base;
  const computed = expectedGoe(printed, value, impossible, panel);
  const goe = computed ?? printed.goe;
  return {
    printed,
    called: valued.called,
    value,
    base,
    goe,
    goeChecked: computed !== null,
    score: sumOrNull([base, goe]),
    impossible,
  };
}

function expectedGoe(
  printed: ProtocolElement,
  value: ElementValue | null,
  impossible: readonly number[],
  panel: PanelRule,
): Hundredths | null {
  if (value === null) return null;
  if (!value.hasValue) return 0;
  return value.row === null || impossible.length > 0 ? null : goeOfMarks(value.row, printed.marks, panel);
}

/** Expected figures of one component; an absent factor is the rulebook's. */
export function measureComponent(
  printed: ProtocolComponent,
  rules: ChosenRules,
  ruleFactor: Hundredths | null,
  panel: PanelRule,
): MeasuredComponent {
  const { min, max, step } = rules.values.values.componentMarks;
  const impossible = printed.marks.flatMap((mark, i) =>
    mark !== null && (mark < min || mark > max || (mark - min) % step !== 0) ? [i] : [],
  );
  const computed = impossible.length > 0 ? null : panelMean(printed.marks, panel);
  const score = computed ?? printed.score;
  const factor = printed.factor ?? ruleFactor;
  return {
    printed,
    score,
    scoreChecked: computed !== null,
    factor,
    points: componentPoints(score, factor),
    impossible,
  };
}
