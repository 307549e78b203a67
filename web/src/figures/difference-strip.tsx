import { clock } from '../words/numbers.ts';
import { useWidth } from './use-width.ts';

interface Planned {
  readonly code: string;
  readonly start: number;
}

interface StripProps {
  readonly a: Readonly<Record<string, unknown>>;
  readonly b: Readonly<Record<string, unknown>>;
  readonly names: readonly [string, string];
  readonly seconds: number;
}

function plannedIn(form: Readonly<Record<string, unknown>>, seconds: number): Planned[] {
  const elements = Array.isArray(form.elements) ? (form.elements as { code?: unknown; start?: unknown }[]) : [];
  return elements.map((e, i) => ({
    code: typeof e.code === 'string' ? e.code : '',
    start: typeof e.start === 'number' ? e.start : Math.round(((i + 0.5) / elements.length) * seconds),
  }));
}

/** What one program has that the other has not: another code, or the same on the other side of the half. */
export function onlyIn(own: readonly Planned[], other: readonly Planned[], seconds: number): Planned[] {
  const key = (p: Planned) => `${p.code} ${p.start >= seconds / 2}`;
  const open = other.map(key);
  return own.filter((p) => {
    const twin = open.indexOf(key(p));
    if (twin >= 0) open.splice(twin, 1);
    return twin < 0;
  });
}

const NARROW = 560;
const LANE = 22;

/** One line along the music: what both have are quiet ticks, what differs stands above (a) or below (b). */
export function DifferenceStrip({ a, b, names, seconds }: StripProps) {
  const { ref, width } = useWidth<HTMLDivElement>(900);
  const left = plannedIn(a, seconds);
  const right = plannedIn(b, seconds);
  const only = { a: onlyIn(left, right, seconds), b: onlyIn(right, left, seconds) };
  const both = left.filter((p) => !only.a.includes(p));
  const said = `Only in ${names[0]}: ${list(only.a)}. Only in ${names[1]}: ${list(only.b)}.`;
  return (
    <figure className="fig" ref={ref}>
      {width >= NARROW ? (
        <Across only={only} both={both} names={names} seconds={seconds} width={width} said={said} />
      ) : (
        <ul className="sums" aria-label={said}>
          {[...only.a.map((p) => ({ ...p, name: names[0] })), ...only.b.map((p) => ({ ...p, name: names[1] }))]
            .toSorted((x, y) => x.start - y.start)
            .map((p) => (
              <li key={`${p.name} ${p.code} ${p.start}`}>
                <span className="n">{clock(p.start)}</span>
                <p>
                  <b>{p.code}</b>, only in {p.name}
                </p>
              </li>
            ))}
        </ul>
      )}
      <figcaption>Only what differs is named; what both versions have is a short stroke on the line.</figcaption>
    </figure>
  );
}

const list = (elements: readonly Planned[]): string =>
  elements.map((p) => `${p.code} at ${clock(p.start)}`).join(', ') || 'nothing';

interface AcrossProps {
  readonly only: { readonly a: readonly Planned[]; readonly b: readonly Planned[] };
  readonly both: readonly Planned[];
  readonly names: readonly [string, string];
  readonly seconds: number;
  readonly width: number;
  readonly said: string;
}

function Across({ only, both, names, seconds, width, said }: AcrossProps) {
  const from = 92;
  const x = (s: number) => from + (Math.min(s, seconds) / seconds) * (width - from - 60);
  const lanesA = lanesOf(only.a.map((p) => ({ x: x(p.start), wide: p.code.length * 8.5 + 14 })));
  const lanesB = lanesOf(only.b.map((p) => ({ x: x(p.start), wide: p.code.length * 8.5 + 14 })));
  const y = 44 + Math.max(0, ...lanesA) * LANE;
  const height = y + 64 + Math.max(0, ...lanesB) * LANE;
  const half = x(seconds / 2);
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={said}>
      <path className="inkl" strokeWidth="1.5" d={`M${from} ${y}H${width - 60}`} />
      <path className="inkl" strokeWidth="3" d={`M${half} ${y - 12}v24M${half - 5} ${y - 12}v24`} />
      <text x={from - 10} y={y - 12} className="e sb">
        {names[0]}
      </text>
      <text x={from - 10} y={y + 24} className="e sb">
        {names[1]}
      </text>
      {both.map((p) => (
        <path key={`${p.code}${p.start}`} className="rule" strokeWidth="1.5" d={`M${x(p.start)} ${y - 5}v10`} />
      ))}
      {only.a.map((p, i) => {
        const top = y - 22 - (lanesA[i] ?? 0) * LANE;
        return (
          <g key={`a${p.code}${p.start}`}>
            <path className="inkl" strokeWidth="1.5" d={`M${x(p.start)} ${y}V${top}`} />
            <text x={x(p.start) + 5} y={top + 8} className="b haloed">
              {p.code}
            </text>
          </g>
        );
      })}
      {only.b.map((p, i) => {
        const low = y + 22 + (lanesB[i] ?? 0) * LANE;
        return (
          <g key={`b${p.code}${p.start}`}>
            <path className="inkl" strokeWidth="1.5" strokeDasharray="4 3" d={`M${x(p.start)} ${y}V${low}`} />
            <text x={x(p.start) + 5} y={low + 4} className="b haloed">
              {p.code}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** A label that would run into one already placed takes the next lane. */
function lanesOf(labels: readonly { readonly x: number; readonly wide: number }[]): number[] {
  const ends: number[] = [];
  return labels.map(({ x, wide }) => {
    let lane = ends.findIndex((end) => end <= x);
    if (lane === -1) lane = ends.length;
    ends[lane] = x + wide;
    return lane;
  });
}
