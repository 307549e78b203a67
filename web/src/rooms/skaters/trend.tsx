import type { Competition, ProtocolRecord } from '../../data/api.ts';
import { useWidth } from '../../figures/use-width.ts';
import { points, shortDay } from '../../words/numbers.ts';

interface TrendProps {
  readonly protocols: readonly ProtocolRecord[];
  readonly competitions: readonly Competition[];
}

interface Dot {
  readonly date: string;
  readonly total: number;
  readonly where: string;
  readonly video: boolean;
}

/** Her totals along the season, one line per segment; ring: event without video review. */
export function Trend({ protocols, competitions }: TrendProps) {
  const eventOf = new Map(competitions.map((c) => [c.id, c]));
  const lines = (['short', 'free'] as const).map((segment) => ({
    segment,
    dots: protocols
      .filter((p) => p.segment === segment && p.total !== null && p.date !== null)
      .map((p): Dot => {
        const event = eventOf.get(p.competitionId ?? '');
        return { date: p.date ?? '', total: p.total ?? 0, where: event?.name ?? '', video: event?.video !== 'no' };
      })
      .toSorted((a, b) => a.date.localeCompare(b.date)),
  }));
  const shown = lines.filter((l) => l.dots.length > 1);
  if (shown.length === 0) return <p className="quiet">Two sheets of the same segment make a line.</p>;
  return shown.map((line) => (
    <Line key={line.segment} name={line.segment === 'free' ? 'Free skate' : 'Short program'} dots={line.dots} />
  ));
}

const HEIGHT = 150;

function Line({ name, dots }: { name: string; dots: readonly Dot[] }) {
  const { ref, width } = useWidth<HTMLDivElement>(640);
  const totals = dots.map((d) => d.total);
  const [low, high] = [Math.min(...totals), Math.max(...totals)];
  const step = (width - 120) / Math.max(1, dots.length - 1);
  const x = (i: number) => 60 + i * step;
  const y = (total: number) => 104 - ((total - low) / Math.max(1, high - low)) * 66;
  return (
    <figure className="fig" ref={ref} style={{ marginBottom: '1.5rem' }}>
      <svg
        width={width}
        height={HEIGHT}
        viewBox={`0 0 ${width} ${HEIGHT}`}
        role="img"
        aria-label={`${name}: ${dots.map((d) => `${shortDay(d.date)} ${points(d.total)}`).join(', ')}`}
      >
        <text x="0" y="14" className="sb">
          {name}
        </text>
        <path className="trace" d={`M${dots.map((d, i) => `${x(i)} ${y(d.total)}`).join('L')}`} />
        {dots.map((d, i) => (
          <g key={d.date}>
            <circle
              cx={x(i)}
              cy={y(d.total)}
              r="5"
              className={d.video ? 'fillink' : 'fillpaper'}
              stroke="var(--ink)"
              strokeWidth="2"
            />
            <text x={x(i)} y={y(d.total) - 12} className="m b haloed">
              {points(d.total)}
            </text>
            <text x={x(i)} y="132" className="m q">
              {shortDay(d.date)}
            </text>
          </g>
        ))}
      </svg>
      <figcaption>
        Dots are events with video review, rings without or not known. Along the events, not to scale in time.
      </figcaption>
    </figure>
  );
}
