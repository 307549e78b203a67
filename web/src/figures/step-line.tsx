import type { Move, StepLevel } from '../../../src/levels/index.ts';
import { footWord } from '../../../src/levels/index.ts';
import { useWidth } from './use-width.ts';

interface StepLineProps {
  readonly moves: readonly Move[];
  readonly result: StepLevel;
  /** Index of the weakest turn; null: none stands out. */
  readonly weakest: number | null;
}

const NARROW = 760;
const footOf = (move: Move): 'L' | 'R' => (move.edge.startsWith('L') ? 'L' : 'R');
const backward = (move: Move): boolean => move.edge.charAt(1) === 'B';
const outOfTen = (credit: number): string => `${Math.round(credit * 10)} of 10`;

/** Two tracks, left foot above, right below; whole is forward, dashed backward, a capsule round each cluster. */
export function StepLine(props: StepLineProps) {
  const { ref, width } = useWidth<HTMLDivElement>(1000);
  return (
    <div ref={ref}>{width < NARROW ? <Downwards {...props} width={width} /> : <Across {...props} width={width} />}</div>
  );
}

function Across({ moves, result, weakest, width }: StepLineProps & { width: number }) {
  const left = 96;
  const step = (width - left - 20) / Math.max(1, moves.length);
  const x = (i: number) => left + (i + 0.5) * step;
  const y = (i: number) => (moves[i] === undefined ? 92 : footOf(moves[i]) === 'L' ? 92 : 196);
  const counted = new Set(result.counted);
  const small = step < 62;
  return (
    <svg width={width} height={292} viewBox={`0 0 ${width} 292`} role="img" aria-label={statement(moves, result)}>
      <text x="0" y="97" className="sb">
        left foot
      </text>
      <text x="0" y="201" className="sb">
        right foot
      </text>
      <path className="hair" strokeWidth="1.2" d={`M70 92H${width}M70 196H${width}`} />
      {result.clusters.attempts.map((cluster) => {
        const [first, , last] = cluster.moves;
        const up = cluster.foot === 'L';
        return (
          <g key={cluster.foot}>
            <rect
              x={x(first) - 24}
              y={y(first) - 17}
              width={x(last) - x(first) + 48}
              height="34"
              rx="17"
              fill="var(--pick)"
              stroke="var(--line)"
              strokeWidth="1.2"
            />
            <path
              className="inkl"
              strokeWidth="1.2"
              d={up ? `M${x(first) - 24} 30V22H${x(last) + 24}V30` : `M${x(first) - 24} 258V266H${x(last) + 24}V258`}
            />
            <text x={(x(first) + x(last)) / 2} y={up ? 14 : 284} className="m sb">
              cluster on the {footWord(cluster.foot)}
            </text>
          </g>
        );
      })}
      {moves.map((move, i) => {
        const from = i === 0 ? left - 26 : x(i - 1);
        const cross = i > 0 && y(i - 1) !== y(i);
        const mid = (from + x(i)) / 2;
        const path = cross
          ? `M${from} ${y(i - 1)}C${mid} ${y(i - 1)} ${mid - 10} ${y(i)} ${mid + 4} ${y(i)}H${x(i)}`
          : `M${from} ${y(i)}H${x(i)}`;
        return (
          <path
            key={`p${i}`}
            className="inkl"
            strokeWidth="2.6"
            strokeDasharray={backward(move) ? '7 5' : undefined}
            d={path}
          />
        );
      })}
      {moves.map((move, i) => {
        const up = footOf(move) === 'L';
        const nameY = up ? (small && i % 2 === 1 ? 36 : 56) : small && i % 2 === 1 ? 250 : 230;
        return (
          <g key={`m${i}`}>
            <circle
              cx={x(i)}
              cy={y(i)}
              r={counted.has(i) ? 6.5 : 4}
              className={counted.has(i) ? 'fillink' : 'fillpaper'}
              stroke="var(--ink)"
              strokeWidth="1.5"
            />
            <text x={x(i)} y={nameY} className={counted.has(i) ? 'm b' : 'm q'} style={{ fontSize: 14 }}>
              {move.turn}
            </text>
            <text x={x(i)} y={nameY + 15} className="m" style={{ fontSize: 12 }}>
              {move.edge}
              {move.credit < 1 ? ` ${outOfTen(move.credit)}` : ''}
            </text>
            {i === weakest && (
              <text x={x(i)} y={up ? 126 : 172} className="m b">
                hangs on this
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}

function Downwards({ moves, result, weakest, width }: StepLineProps & { width: number }) {
  const y = (i: number) => 50 + i * 50;
  const x = (i: number) => (moves[i] !== undefined && footOf(moves[i]) === 'R' ? 84 : 34);
  const counted = new Set(result.counted);
  const height = y(moves.length - 1) + 40;
  return (
    <svg
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={statement(moves, result)}
    >
      <text x="34" y="14" className="m q">
        left
      </text>
      <text x="84" y="14" className="m q">
        right
      </text>
      <path className="hair" strokeWidth="1.2" d={`M34 22V${height}M84 22V${height}`} />
      {result.clusters.attempts.map((cluster) => {
        const [first, , last] = cluster.moves;
        return (
          <rect
            key={cluster.foot}
            x={x(first) - 15}
            y={y(first) - 20}
            width="30"
            height={y(last) - y(first) + 40}
            rx="15"
            fill="var(--pick)"
            stroke="var(--line)"
            strokeWidth="1.2"
          />
        );
      })}
      {moves.map((move, i) => {
        const from = i === 0 ? 24 : y(i - 1);
        const mid = (from + y(i)) / 2;
        const cross = i > 0 && x(i - 1) !== x(i);
        const path = cross
          ? `M${x(i - 1)} ${from}C${x(i - 1)} ${mid} ${x(i)} ${mid - 8} ${x(i)} ${mid + 6}V${y(i)}`
          : `M${x(i)} ${from}V${y(i)}`;
        return (
          <g key={i}>
            <path className="inkl" strokeWidth="2.6" strokeDasharray={backward(move) ? '6 5' : undefined} d={path} />
            <circle
              cx={x(i)}
              cy={y(i)}
              r={counted.has(i) ? 6.5 : 4}
              className={counted.has(i) ? 'fillink' : 'fillpaper'}
              stroke="var(--ink)"
              strokeWidth="1.5"
            />
            <text x="122" y={y(i) + 5} className={counted.has(i) ? 'b' : 'q'} style={{ fontSize: 17 }}>
              {move.edge} {move.turn}
            </text>
            <text x={width - 4} y={y(i) + 5} className="e" style={{ fontSize: 15 }}>
              {i === weakest ? 'hangs on this' : move.credit < 1 ? outOfTen(move.credit) : ''}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

const statement = (moves: readonly Move[], result: StepLevel): string =>
  `The sequence as one line on two tracks, left foot above, right foot below: ${moves.map((m) => `${m.edge} ${m.turn}`).join(', ')}. ${result.code}.`;
