import { points, tenths } from '../words/numbers.ts';
import { useWidth } from './use-width.ts';

export interface Range {
  /** Points at the cumulative levels. */
  readonly q025: number;
  readonly q10: number;
  readonly q25: number;
  readonly q50: number;
  readonly q75: number;
  readonly q90: number;
  readonly q975: number;
}

interface StripProps {
  readonly range: Range;
  /** The range that sets the ruler while another one is drawn on it: it stands still while a slider moves. */
  readonly frame?: { readonly '0.025': number; readonly '0.975': number };
  readonly target?: { readonly points: number; readonly purpose: string } | null;
}

const MIDDLE = 62;

/** Thin line 95 %, open bar 80 %, filled bar 50 %, a stroke at the middle, the target as a notch from above. */
export function RangeStrip({ range, frame, target }: StripProps) {
  const { ref, width } = useWidth<HTMLDivElement>(640);
  const low = Math.min(range.q025, frame?.['0.025'] ?? Infinity, target?.points ?? Infinity);
  const high = Math.max(range.q975, frame?.['0.975'] ?? -Infinity, target?.points ?? -Infinity);
  const pad = Math.max((high - low) * 0.06, 0.5);
  const x = (value: number) => 12 + ((value - (low - pad)) / (high - low + 2 * pad)) * (width - 24);
  const ticks = nice(low - pad, high + pad, width < 500 ? 4 : 7);
  return (
    <div ref={ref}>
      <svg
        width={width}
        height={118}
        viewBox={`0 0 ${width} 118`}
        role="img"
        aria-label={statement(range, target ?? null)}
      >
        <path className="rule" strokeWidth="3" d={`M${x(range.q025)} ${MIDDLE}H${x(range.q975)}`} />
        <rect
          x={x(range.q10)}
          y={MIDDLE - 10}
          width={x(range.q90) - x(range.q10)}
          height="20"
          className="fillpaper"
          stroke="var(--line)"
          strokeWidth="1.5"
        />
        <rect
          x={x(range.q25)}
          y={MIDDLE - 12}
          width={Math.max(2, x(range.q75) - x(range.q25))}
          height="24"
          fill="var(--line)"
        />
        <path className="inkl" strokeWidth="3" d={`M${x(range.q50)} ${MIDDLE - 16}v32`} />
        {target != null && <Notch x={x(target.points)} target={target} />}
        <path className="rule" strokeWidth="1" d={`M4 92H${width - 4}`} />
        {ticks.map((tick) => (
          <g key={tick}>
            <path className="rule" strokeWidth="1" d={`M${x(tick)} 92v6`} />
            <text x={x(tick)} y="112" className="m q">
              {tick}
            </text>
          </g>
        ))}
      </svg>
    </div>
  );
}

function Notch({ x, target }: { x: number; target: { points: number; purpose: string } }) {
  return (
    <g>
      <path
        d={`M${x - 8} ${MIDDLE - 14}L${x} ${MIDDLE + 3}L${x + 8} ${MIDDLE - 14}`}
        className="fillpaper"
        stroke="var(--ink)"
        strokeWidth="1.5"
      />
      <text x={x} y="18" className="m b" style={{ fontSize: 15 }}>
        target {points(Math.round(target.points * 100))}
      </text>
      <text x={x} y="36" className="m">
        {target.purpose}
      </text>
    </g>
  );
}

function nice(from: number, to: number, about: number): number[] {
  const rough = (to - from) / about;
  const step = [0.5, 1, 2, 5, 10, 20, 50].find((s) => s >= rough) ?? 100;
  const first = Math.ceil(from / step) * step;
  return Array.from({ length: Math.max(0, Math.floor((to - first) / step) + 1) }, (_, i) => first + i * step);
}

function statement(range: Range, target: { points: number; purpose: string } | null): string {
  const goal = target === null ? '' : ` Target ${points(Math.round(target.points * 100))}, ${target.purpose}.`;
  return `Usually between ${tenths(range.q10)} and ${tenths(range.q90)}; half of all days between ${tenths(range.q25)} and ${tenths(range.q75)}, the middle at ${tenths(range.q50)}.${goal}`;
}

/** Twenty strokes in fives: on how many of twenty days. */
export function Tally({ p, label }: { p: number; label: string }) {
  const days = Math.round(p * 20);
  return (
    <svg width="190" height="20" viewBox="0 0 190 20" role="img" aria-label={label}>
      {Array.from({ length: 20 }, (_, i) => (
        <path
          key={i}
          className={i < days ? 'inkl' : 'rule'}
          strokeWidth={i < days ? 3 : 1}
          d={`M${4 + i * 8 + Math.floor(i / 5) * 8} ${i < days ? 2 : 10}V18`}
        />
      ))}
    </svg>
  );
}
