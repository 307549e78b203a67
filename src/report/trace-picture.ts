import { parseCode } from '../notation/index.ts';

/** One element along the music; `seconds` null: elements stand evenly. */
export interface TraceElement {
  readonly code: string;
  readonly seconds: number | null;
  /** Written above the line, e.g. the element itself where it came on top. */
  readonly label: string | null;
  /** Ringed: one of the things still to win. */
  readonly ringed: boolean;
}

const WIDE = 560;
const LINE = 62;

/** The skater's strip: the blade's line along the music, with notes above only; nothing below is drawn. */
export function tracePicture(elements: readonly TraceElement[]): string {
  const places = placesOf(elements);
  const line = elements.map((e, i) => shapeOf(e.code, places[i] ?? 0)).join(' ');
  const marks = elements.map((e, i) => markOf(e, places[i] ?? 0)).join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDE} 90" width="${WIDE}" height="90"><path d="M4 ${LINE} ${line} L${WIDE - 4} ${LINE}" fill="none" stroke="#14222b" stroke-width="2"/>${marks}</svg>`;
}

function placesOf(elements: readonly TraceElement[]): number[] {
  const timed = elements.every((e) => e.seconds !== null);
  const last = Math.max(...elements.map((e) => e.seconds ?? 0), 1);
  const even = (i: number) => (elements.length < 2 ? 0.5 : i / (elements.length - 1));
  return elements.map((e, i) => Math.round(34 + (timed ? (e.seconds ?? 0) / last : even(i)) * (WIDE - 68)));
}

function shapeOf(code: string, x: number): string {
  const parsed = parseCode(code);
  const kind = parsed.ok ? parsed.value.element.kind : 'jump';
  if (kind === 'spin') {
    const loops = [-12, -4, 4, 12].map((dx) => `L${x + dx} ${LINE} q6 -14 0 -14 q-6 0 0 14`).join(' ');
    return loops;
  }
  if (kind === 'jump') return `L${x - 8} ${LINE} q8 -10 16 0`;
  return `L${x - 20} ${LINE} q5 -10 10 0 q5 10 10 0 q5 -10 10 0 q5 10 10 0`;
}

function markOf(e: TraceElement, x: number): string {
  const label =
    e.label === null
      ? ''
      : `<text x="${x}" y="34" font-size="11" text-anchor="middle" fill="#1b4f8f">${escapeXml(e.label)}</text><path d="M${x} 38V48" stroke="#1b4f8f" stroke-width="1.5"/>`;
  const ring = e.ringed
    ? `<circle cx="${x}" cy="${LINE}" r="17" fill="none" stroke="#14222b" stroke-width="1.5" stroke-dasharray="4 3"/>`
    : '';
  return label + ring;
}

const escapeXml = (text: string): string =>
  text.replace(/[<>&"]/g, (sign) => ({ '<': '&lt;', '>': '&gt;', '&': '&amp;', '"': '&quot;' })[sign] ?? sign);
