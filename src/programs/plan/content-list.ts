import { clock, formatElement, parseCode, type Element } from '../../notation/index.ts';
import type { Layout } from '../../scoring/index.ts';
import type { SegmentRules } from '../segment-rules.ts';

/** One line of the planned program content. */
export interface ContentLine {
  readonly no: number;
  /** Official code without level. */
  readonly code: string;
  /** `1:45`; null where the required time is not known. */
  readonly time: string | null;
  /** The time is spread evenly, not taken from the music. */
  readonly approximate: boolean;
}

const withoutLevel = (element: Element): Element => (element.kind === 'jump' ? element : { ...element, level: null });

/** Elements in skating order with approximate times, as organisers ask for them: no levels. */
export function contentList(layout: Layout, { content }: SegmentRules): readonly ContentLine[] {
  const length = layout.duration ?? content.duration.seconds;
  const n = layout.elements.length;
  return layout.elements.map(({ code, start }, i) => {
    const parsed = parseCode(code);
    const seconds = start ?? (length === null ? null : (i / n) * length);
    return {
      no: i + 1,
      code: parsed.ok ? formatElement(withoutLevel(parsed.value.element)) : code,
      time: seconds === null ? null : clock(seconds),
      approximate: start === null,
    };
  });
}
