import { shortDay } from '../words/numbers.ts';
import { useWidth } from './use-width.ts';

export interface WeekMark {
  readonly date: string;
  readonly kind: 'event' | 'deadline';
  readonly what: string;
  readonly who: string;
}

const DAY = 86_400_000;
const DAYS = 56;
const BASE = 84;

const noon = (iso: string): number => new Date(`${iso}T12:00:00`).getTime();
const iso = (time: number): string => {
  const d = new Date(time);
  return `${d.getFullYear()}-${String(d.getMonth() + 1).padStart(2, '0')}-${String(d.getDate()).padStart(2, '0')}`;
};

/** Marks of the next eight weeks, from the Monday of the week of `today`. */
export function ahead(marks: readonly WeekMark[], today: string): WeekMark[] {
  const from = mondayOf(today);
  return marks
    .filter((m) => noon(m.date) >= from && noon(m.date) < from + DAYS * DAY)
    .toSorted((a, b) => a.date.localeCompare(b.date));
}

function mondayOf(today: string): number {
  const time = noon(today);
  return time - ((new Date(time).getDay() + 6) % 7) * DAY;
}

/** One ruler of dates: a dot is an event, a diamond a deadline. */
export function Weeks({ marks, today }: { marks: readonly WeekMark[]; today: string }) {
  const { ref, width } = useWidth<HTMLDivElement>(900);
  const from = mondayOf(today);
  const x = (date: number) => 10 + ((date - from) / (DAYS * DAY)) * (width - 120);
  const shown = ahead(marks, today);
  const lanes = lanesOf(shown.map((m) => ({ x: x(noon(m.date)), wide: Math.max(m.what.length, m.who.length) * 7 })));
  const deepest = Math.max(0, ...lanes);
  const lift = deepest * 34;
  const base = BASE + lift;
  return (
    <div ref={ref}>
      <svg
        width={width}
        height={base + 30}
        viewBox={`0 0 ${width} ${base + 30}`}
        role="img"
        aria-label={statement(shown)}
      >
        <path className="rule" strokeWidth="1" d={`M10 ${base}H${x(from + DAYS * DAY)}`} />
        {Array.from({ length: DAYS }, (_, i) => {
          const at = x(from + i * DAY);
          return (
            <g key={i}>
              <path className="rule" strokeWidth="1" d={`M${at} ${base}v${i % 7 === 0 ? 8 : 4}`} />
              {i % 7 === 0 && (
                <text x={at} y={base + 23} className="q">
                  {shortDay(iso(from + i * DAY))}
                </text>
              )}
            </g>
          );
        })}
        <path className="inkl" strokeWidth="3" d={`M${x(noon(today))} ${base - 14}v22`} />
        <text x={x(noon(today)) + 6} y={base - 6} className="sb">
          today
        </text>
        {shown.map((mark, i) => {
          const at = x(noon(mark.date));
          const top = base - 50 - (lanes[i] ?? 0) * 34;
          return (
            <g key={`${mark.date}${mark.what}`}>
              <path className="inkl" strokeWidth="1.5" d={`M${at} ${top}V${base}`} />
              {mark.kind === 'event' ? (
                <circle cx={at} cy={base} r="6.5" className="fillink" />
              ) : (
                <path
                  className="fillpaper"
                  stroke="var(--ink)"
                  strokeWidth="2"
                  d={`M${at} ${base - 7}l7 7l-7 7l-7 -7z`}
                />
              )}
              <text x={at + 6} y={top + 10} className={mark.kind === 'event' ? 'b' : 'sb'}>
                {mark.what}
              </text>
              <text x={at + 6} y={top + 26}>
                {mark.who}
              </text>
            </g>
          );
        })}
      </svg>
    </div>
  );
}

/**
 * Labels reach to the right, so they are placed from the right: one that would run into its neighbour's
 * stroke stands above it, and no stroke crosses a text.
 */
function lanesOf(labels: readonly { x: number; wide: number }[]): number[] {
  const lanes: number[] = [];
  for (let i = labels.length - 1; i >= 0; i -= 1) {
    const label = labels[i];
    if (label === undefined) continue;
    const reached = labels
      .slice(i + 1)
      .flatMap((other, k) => (other.x < label.x + label.wide + 14 ? [lanes[i + 1 + k] ?? 0] : []));
    lanes[i] = reached.length === 0 ? 0 : Math.max(...reached) + 1;
  }
  return lanes;
}

const statement = (marks: readonly WeekMark[]): string =>
  marks.length === 0
    ? 'Nothing in the next eight weeks.'
    : `The next eight weeks: ${marks.map((m) => `${shortDay(m.date)} ${m.what}, ${m.who}`).join('; ')}.`;
