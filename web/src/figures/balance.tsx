import type { Cause } from '../../../src/reading/index.ts';
import { points, signed } from '../words/numbers.ts';
import { fillOf } from './patterns.tsx';
import { useWidth } from './use-width.ts';

export interface Piece {
  readonly cause: Cause;
  /** Hundredths, never 0; above 0 came on top, below 0 is missing. */
  readonly points: number;
}

const NARROW = 600;
const TAPE = 28;
const RULER = 26;

/** Two tapes on one ruler of points: what came on top above it, what is missing below, cut by cause. */
export function Balance({ pieces }: { pieces: readonly Piece[] }) {
  const { ref, width } = useWidth<HTMLDivElement>(900);
  const top = pieces.filter((p) => p.points > 0);
  const missing = pieces.filter((p) => p.points < 0);
  const sums = { top: total(top), missing: -total(missing) };
  const longest = Math.max(sums.top, sums.missing, 1);
  const narrow = width < NARROW;
  const left = narrow ? 3 : 112;
  const scale = (width - left - 18) / longest;
  const room = { scale, narrow, end: width - left };
  const lanes = { top: labelLanes(top, room), missing: labelLanes(missing, room) };
  const rulerY = 30 + Math.max(1, lanes.top.count) * 30 + TAPE;
  const height = rulerY + RULER + TAPE + 24 + Math.max(1, lanes.missing.count) * 30;

  return (
    <div ref={ref}>
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={statement(pieces)}>
        <text x={narrow ? left : 98} y={narrow ? 14 : rulerY - 20} className={narrow ? 'sb tw' : 'e sb tw'}>
          {narrow ? `on top ${signed(sums.top)}` : 'on top'}
        </text>
        {!narrow && (
          <>
            <text x={98} y={rulerY - 4} className="e b tw">
              {signed(sums.top)}
            </text>
            <text x={98} y={rulerY + 18} className="e q">
              points
            </text>
            <text x={98} y={rulerY + RULER + 16} className="e sb tl">
              missing
            </text>
            <text x={98} y={rulerY + RULER + 32} className="e b tl">
              {signed(-sums.missing)}
            </text>
          </>
        )}
        <Ruler x={left} y={rulerY} width={longest * scale} longest={longest} scale={scale} />
        <Tape pieces={top} side="W" x={left} y={rulerY - TAPE} scale={scale} lanes={lanes.top} up />
        <Tape pieces={missing} side="L" x={left} y={rulerY + RULER} scale={scale} lanes={lanes.missing} up={false} />
        <Overhang sums={sums} left={left} scale={scale} rulerY={rulerY} />
        {narrow && (
          <text x={left} y={height - 4} className="sb tl">
            missing {signed(-sums.missing)}
          </text>
        )}
      </svg>
    </div>
  );
}

const total = (pieces: readonly Piece[]): number => pieces.reduce((sum, p) => sum + p.points, 0);

function statement(pieces: readonly Piece[]): string {
  const list = (sign: 1 | -1) =>
    pieces
      .filter((p) => Math.sign(p.points) === sign)
      .map((p) => `${p.cause} ${points(Math.abs(p.points))}`)
      .join(', ') || 'nothing';
  const sum = total(pieces);
  return `On top: ${list(1)}. Missing: ${list(-1)}. Difference ${sum < 0 ? 'minus ' : ''}${points(Math.abs(sum))}.`;
}

interface Label {
  readonly lane: number;
  /** From the start of the tape; never so far that the words leave the figure. */
  readonly from: number;
}

interface Lanes {
  readonly count: number;
  readonly labels: readonly Label[];
}

interface Room {
  readonly scale: number;
  readonly narrow: boolean;
  /** Where the figure ends, from the start of the tape. */
  readonly end: number;
}

/** Labels stand side by side while they fit; a label that would cross its neighbour takes the next lane. */
function labelLanes(pieces: readonly Piece[], { scale, narrow, end }: Room): Lanes {
  const ends: number[] = [];
  let x = 0;
  const labels = pieces.map((piece): Label => {
    const start = x;
    x += Math.abs(piece.points) * scale;
    const words = Math.max(piece.cause.length * (narrow ? 7.4 : 8), 44);
    const within = (from: number) => Math.max(0, Math.min(from, end - words));
    const free = ends.findIndex((taken) => taken <= within(start));
    const lane = free === -1 ? ends.length : free;
    // In a lower lane the words stand beside their leader.
    const from = within(lane > 0 ? start + 8 : start);
    ends[lane] = from + words + 8;
    return { lane, from };
  });
  return { count: ends.length, labels };
}

/** The leader of another label may pass here: the words stay legible. */
const OVER_LEADERS = { stroke: 'var(--paper)', strokeWidth: 4, paintOrder: 'stroke' } as const;

interface TapeProps {
  readonly pieces: readonly Piece[];
  readonly side: 'W' | 'L';
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly lanes: Lanes;
  readonly up: boolean;
}

function Tape({ pieces, side, x, y, scale, lanes, up }: TapeProps) {
  let at = x;
  const drawn = pieces.map((piece, i) => {
    const start = at;
    const long = Math.abs(piece.points) * scale;
    at += long;
    const { lane, from } = lanes.labels[i] ?? { lane: 0, from: 0 };
    const nameY = up ? y - 22 - lane * 30 : y + TAPE + 18 + lane * 30;
    const leader = up ? `M${start + 4} ${y}V${nameY + 16}` : `M${start + 4} ${y + TAPE}V${nameY - 11}`;
    return (
      <g key={piece.cause}>
        <rect x={start} y={y} width={Math.max(long, 1)} height={TAPE} fill={fillOf(piece.cause, side)} />
        <rect className={side === 'W' ? 'ow' : 'ol'} x={start} y={y} width={Math.max(long, 1)} height={TAPE} />
        {lane > 0 && <path className="rule" strokeWidth="1" d={leader} />}
        <text x={x + from} y={nameY} className="sb" {...OVER_LEADERS}>
          {piece.cause}
        </text>
        <text x={x + from} y={nameY + 14} className={side === 'W' ? 'b tw' : 'b tl'} {...OVER_LEADERS}>
          {signed(piece.points)}
        </text>
      </g>
    );
  });
  // The last first: a leader never crosses words that stand already.
  return drawn.reverse();
}

interface RulerProps {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly longest: number;
  readonly scale: number;
}

function Ruler({ x, y, width, longest, scale }: RulerProps) {
  const pixelsPerPoint = scale * 100;
  const every = [10, 50, 100, 500, 1000, 5000].find((step) => step * scale >= 8) ?? 10_000;
  const numbered = [1, 2, 5, 10, 20, 50].find((step) => step * pixelsPerPoint >= 34) ?? 100;
  const ticks = Array.from({ length: Math.floor(longest / every) + 1 }, (_, i) => i * every);
  return (
    <g>
      <rect className="rule" x={x} y={y} width={width} height={RULER} strokeWidth="1" />
      {ticks.map((tick) => {
        const size = tick % 100 === 0 ? 8 : tick % 50 === 0 ? 6 : 3.5;
        const at = x + tick * scale;
        return (
          <path key={tick} className="rule" strokeWidth="1" d={`M${at} ${y}v${size}M${at} ${y + RULER}v${-size}`} />
        );
      })}
      {ticks
        .filter((tick) => tick > 0 && tick % (numbered * 100) === 0)
        .map((tick) => (
          <text
            key={tick}
            x={x + tick * scale}
            y={y + 17.5}
            className="m"
            stroke="var(--paper)"
            strokeWidth="4"
            paintOrder="stroke"
          >
            {tick / 100}
          </text>
        ))}
    </g>
  );
}

interface OverhangProps {
  readonly sums: { readonly top: number; readonly missing: number };
  readonly left: number;
  readonly scale: number;
  readonly rulerY: number;
}

/** The difference, measured like a length between the ends of the two tapes. */
function Overhang({ sums, left, scale, rulerY }: OverhangProps) {
  const difference = sums.top - sums.missing;
  const from = left + Math.min(sums.top, sums.missing) * scale;
  const to = left + Math.max(sums.top, sums.missing) * scale;
  if (to - from < 24) return null;
  const y = difference < 0 ? rulerY - TAPE / 2 : rulerY + RULER + TAPE / 2;
  return (
    <g>
      <path
        className="inkl"
        strokeWidth="1.5"
        d={`M${from + 4} ${y}H${to - 1}M${from + 10} ${y - 4}L${from + 4} ${y}l6 4M${to - 7} ${y - 4}L${to - 1} ${y}l-6 4M${to} ${rulerY - TAPE}V${rulerY + RULER + TAPE}`}
      />
      <text x={(from + to) / 2} y={y + 5} className="m b" stroke="var(--paper)" strokeWidth="8" paintOrder="stroke">
        {signed(difference)}
      </text>
    </g>
  );
}
