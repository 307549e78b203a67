import { clock, formatElement, parseCode, type Element } from '../notation/index.ts';
import type { Layout } from '../scoring/index.ts';
import { text, type ReportPage } from './page.ts';

/**
 * The planned program content as organisers ask for it: elements in skating order with approximate
 * times, codes with the rotation first, no levels.
 */
export function plannedContent(
  layout: Layout,
  who: { readonly name: string; readonly event: string | null },
): ReportPage {
  const lines = layout.elements.map((e, i) => {
    const time = e.start === null ? '' : `  about ${clock(e.start)}`;
    return [`${i + 1}`, `${withoutLevel(e.code)}${time}`] as const;
  });
  return {
    title: `${who.name}, planned program content`,
    meta: [layout.category, layout.segment === 'free' ? 'free skate' : 'short program', layout.season, who.event]
      .filter((part) => part !== null)
      .join(' · '),
    rows: [
      { about: 'Elements', blocks: [{ kind: 'lines', lines }] },
      { about: 'Music', blocks: [text(layout.duration === null ? ' ' : clock(layout.duration))] },
    ],
    large: false,
    foot: 'Times are approximate. Levels are not planned here; the technical panel decides them.',
  };
}

/** The code without level and without calls, as a plan states it. */
function withoutLevel(code: string): string {
  const parsed = parseCode(code);
  return parsed.ok ? formatElement(bare(parsed.value.element)) : code;
}

const bare = (element: Element): Element => (element.kind === 'jump' ? element : { ...element, level: null });
