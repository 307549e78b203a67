import { CAUSES, type Cause } from '../../../src/reading/index.ts';
import { signed } from '../words/numbers.ts';
import { fillOf } from './patterns.tsx';
import { tracePath, type TraceNote } from './trace.ts';
import { useWidth } from './use-width.ts';

export interface StaveElement {
  readonly no: number;
  readonly code: string;
  readonly kind: TraceNote['kind'];
  /** Seconds into the music; null: elements stand evenly. */
  readonly start: number | null;
}

export interface StaveEntry {
  /** null: the whole program. */
  readonly no: number | null;
  readonly cause: Cause;
  readonly points: number;
  readonly atLeast: boolean;
}

interface StaveProps {
  readonly elements: readonly StaveElement[];
  readonly entries: readonly StaveEntry[];
  readonly chosen: StaveEntry | null;
  readonly onAsk: (entry: StaveEntry) => void;
}

const LEFT = 206;
const WHOLE = 76;
const TRACE_Y = 82;
const BAR = 18;

/** One line for each cause along the music: what stands on it came on top, what hangs from it is missing. */
export function Stave({ elements, entries, chosen, onAsk }: StaveProps) {
  const { ref, width } = useWidth<HTMLDivElement>(1000);
  const places = placesOf(elements, LEFT + 30, width - WHOLE - 40);
  const wholeX = width - WHOLE / 2;
  const scale = scaleFor(entries);
  const lines = linesOf(entries, scale);
  const height = (lines.at(-1)?.bottom ?? 130) + 44;
  const xOf = (no: number | null) => (no === null ? wholeX : (places.get(no) ?? wholeX));
  const sum = entries.reduce((all, e) => all + e.points, 0);

  return (
    <div ref={ref}>
      <svg
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={statement(entries, lines.length)}
      >
        {[...places.values(), wholeX].map((x) => (
          <path key={x} className="hair" strokeDasharray="1 4" d={`M${x} 108V${height - 40}`} />
        ))}
        {elements.map((e) => (
          <StackedCode key={e.no} code={e.code} x={places.get(e.no) ?? 0} />
        ))}
        <text x={wholeX} y="58" className="m">
          whole
        </text>
        <text x={wholeX} y="73" className="m">
          program
        </text>
        <path className="trace" d={tracePath(notesOf(elements, places), LEFT, width - WHOLE - 10, TRACE_Y)} />
        {lines.map((line) => (
          <g key={line.cause}>
            <path className="rule" strokeWidth="1" d={`M${LEFT} ${line.y}H${width}`} />
            <rect x="0" y={line.y - 11} width="26" height="13" fill={fillOf(line.cause, line.sum < 0 ? 'L' : 'W')} />
            <rect className={line.sum < 0 ? 'ol' : 'ow'} x="0" y={line.y - 11} width="26" height="13" />
            <text x="36" y={line.y} className="b" style={{ fontSize: 15 }}>
              {line.cause}
            </text>
            <text x="190" y={line.y} className={`e b ${line.sum < 0 ? 'tl' : 'tw'}`} style={{ fontSize: 15 }}>
              {signed(line.sum)}
            </text>
            {line.entries.map((entry) => (
              <Stroke
                key={entry.no ?? 'whole'}
                entry={entry}
                x={xOf(entry.no)}
                y={line.y}
                scale={scale}
                chosen={entry === chosen}
                onAsk={onAsk}
              />
            ))}
          </g>
        ))}
        <path className="rule" d={`M120 ${height - 30}H190`} strokeWidth="1" />
        <text x="0" y={height - 12} className="b">
          all causes
        </text>
        <text x="190" y={height - 12} className="e b">
          {signed(sum)}
        </text>
        <path className="inkl" strokeWidth="1" d={`M140 ${height - 6}H190M140 ${height - 2}H190`} />
      </svg>
    </div>
  );
}

function StackedCode({ code, x }: { code: string; x: number }) {
  const parts = code.split(/(?=\+)/);
  return parts.map((part, i) => (
    <text key={`${part}${i}`} x={x} y={58 - 15 * (parts.length - 1 - i)} className="m sb">
      {part}
    </text>
  ));
}

interface StrokeProps {
  readonly entry: StaveEntry;
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly chosen: boolean;
  readonly onAsk: (entry: StaveEntry) => void;
}

function Stroke({ entry, x, y, scale, chosen, onAsk }: StrokeProps) {
  const long = Math.max(Math.abs(entry.points) * scale, 2);
  const stands = entry.points > 0;
  const top = stands ? y - long : y;
  const labelY = stands ? top - 4 : y + long + 15;
  const text = `${entry.atLeast ? 'at least ' : ''}${signed(entry.points)}`;
  const ask = () => onAsk(entry);
  return (
    <g onClick={ask} style={{ cursor: 'pointer' }}>
      <rect x={x - BAR / 2} y={top} width={BAR} height={long} fill={fillOf(entry.cause, stands ? 'W' : 'L')} />
      {entry.atLeast && !stands ? (
        <path className="ol" d={`M${x - 9} ${y + long}V${y}H${x + 9}V${y + long}l-3 -4l-3 4l-3 -4l-3 4l-3 -4z`} />
      ) : (
        <rect className={stands ? 'ow' : 'ol'} x={x - BAR / 2} y={top} width={BAR} height={long} />
      )}
      {chosen && <rect className="inkl" strokeWidth="1.5" x={x - 27} y={labelY - 13} width="54" height="18" rx="2" />}
      <text x={x} y={labelY} className={`m ${stands ? 'tw' : 'tl'}`}>
        {text}
      </text>
    </g>
  );
}

/** About 32 pixels a point, less where one cause would fill the page. */
function scaleFor(entries: readonly StaveEntry[]): number {
  const longest = Math.max(...entries.map((e) => Math.abs(e.points)), 1);
  return Math.min(0.32, 150 / longest);
}

interface Line {
  readonly cause: Cause;
  readonly y: number;
  readonly bottom: number;
  readonly sum: number;
  readonly entries: readonly StaveEntry[];
}

function linesOf(entries: readonly StaveEntry[], scale: number): Line[] {
  let bottom = 104;
  const lines: Line[] = [];
  for (const cause of CAUSES) {
    const own = entries.filter((e) => e.cause === cause && e.points !== 0);
    if (own.length === 0) continue;
    const above = Math.max(0, ...own.map((e) => e.points)) * scale;
    const below = Math.max(0, ...own.map((e) => -e.points)) * scale;
    const y = bottom + above + (above > 0 ? 34 : 20);
    bottom = y + below + (below > 0 ? 24 : 8);
    lines.push({ cause, y, bottom, sum: own.reduce((all, e) => all + e.points, 0), entries: own });
  }
  return lines;
}

function placesOf(elements: readonly StaveElement[], from: number, to: number): Map<number, number> {
  const timed = elements.length > 0 && elements.every((e) => e.start !== null);
  const last = Math.max(...elements.map((e) => e.start ?? 0), 1);
  const gap = (to - from) / Math.max(1, elements.length - 1);
  let before = from - 46;
  return new Map(
    elements.map((e, i) => {
      const wanted = timed ? from + ((e.start ?? 0) / last) * (to - from) : from + i * gap;
      before = Math.max(wanted, before + Math.min(46, gap));
      return [e.no, Math.min(before, to)];
    }),
  );
}

const notesOf = (elements: readonly StaveElement[], places: Map<number, number>): TraceNote[] =>
  elements.map((e) => ({
    kind: e.kind,
    x: places.get(e.no) ?? 0,
    wide: e.kind === 'spin' ? 38 : e.kind === 'steps' || e.kind === 'choreo' ? 60 : 16,
  }));

function statement(entries: readonly StaveEntry[], causes: number): string {
  const sum = entries.reduce((all, e) => all + e.points, 0);
  return `${causes} causes as lines along the music; together ${signed(sum)} points. The same figures follow as a list.`;
}
