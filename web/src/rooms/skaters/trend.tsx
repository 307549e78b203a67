import type { Competition, ProtocolRecord } from '../../data/api.ts';
import { useWidth } from '../../figures/use-width.ts';
import { trendOf } from '../../../../src/season/trend.ts';
import { usualRange } from '../../../../src/season/usual.ts';
import { SheetTotal } from '../../parts/sheet-total.tsx';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { points, shortDay, tenths } from '../../words/numbers.ts';

interface TrendProps {
  readonly protocols: readonly ProtocolRecord[];
  readonly competitions: readonly Competition[];
}

interface Dot {
  readonly date: string;
  readonly total: number;
  readonly where: string;
  readonly video: boolean;
  readonly protocol: ProtocolRecord;
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
        return {
          date: p.date ?? '',
          total: p.total ?? 0,
          where: event?.name ?? '',
          video: event?.video !== 'no',
          protocol: p,
        };
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
    <div style={{ marginBottom: '1.5rem' }}>
      <figure className="fig" ref={ref}>
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
          Dots are events with video review or where it is not known, rings without. Along the events, not to scale in
          time.
        </figcaption>
      </figure>
      <InWords dots={dots} />
    </div>
  );
}

/** What the line says: the usual range and whether there is a trend, each with its calculation; and the list. */
function InWords({ dots }: { dots: readonly Dot[] }) {
  const totals = dots.map((d) => d.total / 100);
  const usual = usualRange(totals);
  const trend = trendOf(totals);
  return (
    <>
      {usual !== null && (
        <p style={{ marginTop: '.5rem' }}>
          <Why about="Why this range?" answer={<p>{words.season.whyUsually}</p>}>
            {words.season.usually(tenths(usual.low), tenths(usual.high), usual.n)}
          </Why>{' '}
          {trend !== null && (
            <Why
              about="Why?"
              answer={<p>{words.season.whyTrend(tenths(trend.interval[0]), tenths(trend.interval[1]))}</p>}
            >
              {trend.direction === 'none'
                ? words.season.noTrend(trend.n)
                : words.season.trend(trend.direction, tenths(Math.abs(trend.perEvent)), trend.n)}
            </Why>
          )}
        </p>
      )}
      <details className="drawer">
        <summary>{words.season.asList}</summary>
        <ul className="sums">
          {dots.map((d) => (
            <li key={d.date}>
              <span className="n">
                <SheetTotal protocol={d.protocol} />
              </span>
              <p>
                {shortDay(d.date)}
                {d.where === '' ? '' : `, ${d.where}`}
              </p>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
