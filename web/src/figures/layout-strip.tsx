import { memo, useRef, useState } from 'react';
import { parseCode, type Element } from '../../../src/notation/index.ts';
import { clock } from '../words/numbers.ts';
import type { StripNote } from './strip-note.ts';
import { tracePath, type TraceNote } from './trace.ts';
import { useWidth } from './use-width.ts';

interface StripProps {
  readonly notes: readonly StripNote[];
  /** Required time in seconds: the length of the music drawn. */
  readonly seconds: number;
  /** The bracket over the last jump elements: their ids. */
  readonly bonus: ReadonlySet<string>;
  readonly broken: ReadonlySet<string>;
  /** A hand comes near a note, or leaves it: what may come of moving it can be prepared. */
  readonly onHold: (id: string | null) => void;
  readonly onMove: (id: string, start: number) => void;
  readonly onDone: (id: string) => void;
}

const STAFF: readonly (readonly [number, string])[] = [
  [4, 'quad'],
  [3, 'triple'],
  [2, 'double'],
  [1, 'single'],
];
const GAP = 20;
const TOP = 62;

const lineAt = (highest: number) => (turns: number) => TOP + GAP * (highest - turns);

const parsed = new Map<string, Element | null>();

/** Read once: the strip is drawn at every movement. */
function elementOf(code: string): Element | null {
  const known = parsed.get(code);
  if (known !== undefined) return known;
  const read = parseCode(code);
  const element = read.ok ? read.value.element : null;
  parsed.set(code, element);
  return element;
}

/** The layout along the music: notes on the line of their turns, the trace beneath, the half as a double bar. */
export function LayoutStrip(props: StripProps) {
  const { ref, width } = useWidth<HTMLDivElement>(900);
  const vertical = width < 560;
  const { notes } = props;
  // A handle that is moved among the others in the document lets go of the finger and of the focus: while
  // one is in use they keep their order, which is that of skating again when the strip is left.
  const [order, setOrder] = useState(() => notes.map((n) => n.id));
  const grips = order.flatMap((id) => notes.find((n) => n.id === id) ?? []);
  const later = notes.filter((n) => !order.includes(n.id));
  const sized = { ...props, width, grips: [...grips, ...later] };
  return (
    <div
      ref={ref}
      style={{ position: 'relative' }}
      onBlur={({ currentTarget, relatedTarget }) => {
        if (!currentTarget.contains(relatedTarget)) setOrder(notes.map((n) => n.id));
      }}
    >
      {vertical ? <Downwards {...sized} /> : <Across {...sized} />}
    </div>
  );
}

type Sized = StripProps & { readonly width: number; readonly grips: readonly StripNote[] };

function Across({ notes, grips, seconds, bonus, broken, onHold, onMove, onDone, width }: Sized) {
  const left = 64;
  const x = (s: number) => left + (Math.min(s, seconds) / seconds) * (width - left - 14);
  const highest = Math.max(3, ...notes.flatMap((n) => turnsOf(elementOf(n.code))));
  const staff = STAFF.filter(([turns]) => turns <= highest);
  const y = lineAt(highest);
  const bottom = TOP + GAP * highest + 26;
  const half = x(seconds / 2);
  const high = heights(notes, x);
  return (
    <>
      <svg
        width={width}
        height={bottom + 44}
        viewBox={`0 0 ${width} ${bottom + 44}`}
        role="img"
        aria-label={statement(notes, seconds)}
      >
        <rect x={half} y={TOP - 18} width={width - 14 - half} height={bottom - TOP + 18} fill="var(--pick)" />
        {staff.map(([turns, name]) => (
          <g key={name}>
            <path className="hair" strokeWidth="1" d={`M${left} ${y(turns)}H${width - 14}`} />
            <text x={left - 10} y={y(turns) + 4} className="e q">
              {name}
            </text>
          </g>
        ))}
        <path className="inkl" strokeWidth="1.2" d={`M${half - 3} ${TOP - 18}V${bottom}`} />
        <path className="inkl" strokeWidth="3" d={`M${half + 2} ${TOP - 18}V${bottom}`} />
        <text x={half + 8} y={bottom - 24} className="q">
          second half, from {clock(seconds / 2)}
        </text>
        <Bracket notes={notes} bonus={bonus} x={x} />
        <path className="trace" d={tracePath(traceOf(notes, x), left, width - 14, bottom - 10)} />
        {notes.map((note, i) => (
          <Head
            key={note.id}
            note={note}
            x={x(note.start)}
            highest={highest}
            height={high[i] ?? 0}
            broken={broken.has(note.id)}
            bottom={bottom}
          />
        ))}
        <path className="rule" strokeWidth="1" d={`M${left} ${bottom}H${width - 14}`} />
        {Array.from({ length: Math.floor(seconds / 30) + 1 }, (_, i) => i * 30).map((s) => (
          <g key={s}>
            <path className="rule" strokeWidth="1" d={`M${x(s)} ${bottom}v8`} />
            <text x={x(s)} y={bottom + 24} className="m q">
              {clock(s)}
            </text>
          </g>
        ))}
      </svg>
      {grips.map((note) => (
        <Grip
          key={note.id}
          note={note}
          seconds={seconds}
          left={x(note.start) - 22}
          top={TOP - 44}
          width={44}
          height={bottom - TOP + 40}
          from={left}
          length={width - left - 14}
          axis="x"
          onHold={onHold}
          onMove={onMove}
          onDone={onDone}
        />
      ))}
    </>
  );
}

function Downwards({ notes, grips, seconds, bonus, broken, onHold, onMove, onDone, width }: Sized) {
  const top = 30;
  const height = Math.max(seconds * 2.6, notes.length * 46);
  const y = (s: number) => top + (Math.min(s, seconds) / seconds) * height;
  const line = 76;
  return (
    <>
      <svg
        width={width}
        height={height + 60}
        viewBox={`0 0 ${width} ${height + 60}`}
        role="img"
        aria-label={statement(notes, seconds)}
      >
        <rect x="60" y={y(seconds / 2)} width={width - 60} height={y(seconds) - y(seconds / 2)} fill="var(--pick)" />
        <path className="trace" d={`M${line} ${top}V${y(seconds)}`} />
        <path className="inkl" strokeWidth="3" d={`M60 ${y(seconds / 2)}H${width}`} />
        <text x={width - 4} y={y(seconds / 2) + 16} className="e q">
          second half
        </text>
        {notes.map((note) => (
          <g key={note.id}>
            <text x="52" y={y(note.start) + 5} className="e q">
              {clock(note.start)}
            </text>
            <circle
              cx={line}
              cy={y(note.start)}
              r="6"
              className={elementOf(note.code)?.kind === 'jump' ? 'fillink' : 'fillpaper'}
              stroke="var(--ink)"
              strokeWidth="2"
            />
            <text x="98" y={y(note.start) + 6} className="b" style={{ fontSize: 17 }}>
              {note.code}
              {bonus.has(note.id) ? '  +10 %' : ''}
            </text>
            {broken.has(note.id) && <rect x="88" y={y(note.start) - 12} width="5" height="24" className="fillink" />}
          </g>
        ))}
      </svg>
      {grips.map((note) => (
        <Grip
          key={note.id}
          note={note}
          seconds={seconds}
          left={56}
          top={y(note.start) - 24}
          width={width - 70}
          height={48}
          from={top}
          length={height}
          axis="y"
          onHold={onHold}
          onMove={onMove}
          onDone={onDone}
        />
      ))}
    </>
  );
}

interface GripProps {
  readonly note: StripNote;
  readonly seconds: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Where the music begins along the axis, and how many pixels it takes. */
  readonly from: number;
  readonly length: number;
  readonly axis: 'x' | 'y';
  readonly onHold: (id: string | null) => void;
  readonly onMove: (id: string, start: number) => void;
  readonly onDone: (id: string) => void;
}

/** The handle of a note: mouse, finger, or arrow keys by one second (shift: five). */
const Grip = memo(function Grip(props: GripProps) {
  const { note, seconds, left, top, width, height, from, length, axis, onHold, onMove, onDone } = props;
  const held = useRef<number | null>(null);
  const move = (start: number) => onMove(note.id, Math.round(Math.min(Math.max(start, 0), seconds - 1)));
  const along = (pixels: number) => ((pixels - from) / length) * seconds;
  const place = (event: React.PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.parentElement?.getBoundingClientRect();
    return axis === 'x' ? event.clientX - (box?.left ?? 0) : event.clientY - (box?.top ?? 0);
  };
  return (
    <div
      role="slider"
      tabIndex={0}
      aria-label={note.code}
      aria-valuemin={0}
      aria-valuemax={seconds}
      aria-valuenow={note.start}
      aria-valuetext={`${note.code}, ${clock(note.start)}`}
      aria-orientation={axis === 'x' ? 'horizontal' : 'vertical'}
      style={{
        position: 'absolute',
        left,
        top,
        width,
        height,
        cursor: 'grab',
        touchAction: axis === 'x' ? 'pan-y' : 'none',
      }}
      onPointerEnter={() => onHold(note.id)}
      onFocus={() => onHold(note.id)}
      onPointerLeave={() => onHold(null)}
      onKeyDown={(event) => {
        const by = event.shiftKey ? 5 : 1;
        const way = { ArrowRight: by, ArrowUp: by, ArrowLeft: -by, ArrowDown: -by }[event.key];
        if (way === undefined) return;
        event.preventDefault();
        move(note.start + (axis === 'y' && /Up|Down/.test(event.key) ? -way : way));
        onDone(note.id);
      }}
      onPointerDown={(event) => {
        held.current = place(event) - (axis === 'x' ? left + 22 : top + 24);
        event.currentTarget.setPointerCapture(event.pointerId);
      }}
      onPointerMove={(event) => {
        if (held.current !== null) move(along(place(event) - held.current));
      }}
      onPointerUp={() => {
        if (held.current !== null) onDone(note.id);
        held.current = null;
      }}
    />
  );
});

interface HeadProps {
  readonly note: StripNote;
  readonly x: number;
  /** Turns of the topmost line. */
  readonly highest: number;
  /** Of the name, where neighbours would touch: 0 or 1. */
  readonly height: number;
  readonly broken: boolean;
  readonly bottom: number;
}

const Head = memo(function Head({ note, x, highest, height, broken, bottom }: HeadProps) {
  const y = lineAt(highest);
  const at = TOP - 20 + height * 14;
  const element = elementOf(note.code);
  const name = (
    <text x={x} y={element?.kind === 'jump' ? at : bottom - 34 - height * 14} className="m b">
      {note.code}
    </text>
  );
  if (element?.kind !== 'jump') return name;
  const stem = at + 6;
  return (
    <g>
      {name}
      {broken && <path className="inkl" strokeWidth="5" d={`M${x - 14} ${at + 4}V${bottom - 16}`} />}
      {element.jumps.map((jump, i) => {
        const px = x + i * 14;
        const py = y(jump.name === 'A' ? jump.turns + 0.5 : jump.turns);
        return (
          <g key={i}>
            <ellipse
              cx={px - 4}
              cy={py}
              rx="6.5"
              ry="5"
              className="fillink"
              transform={`rotate(-18 ${px - 4} ${py})`}
            />
            <path className="inkl" strokeWidth="1.5" d={`M${px + 2} ${py}V${stem}`} />
          </g>
        );
      })}
      {element.jumps.length > 1 && (
        <path className="inkl" strokeWidth="4" d={`M${x + 2} ${stem}H${x + 2 + (element.jumps.length - 1) * 14}`} />
      )}
    </g>
  );
});

function Bracket({
  notes,
  bonus,
  x,
}: {
  notes: readonly StripNote[];
  bonus: ReadonlySet<string>;
  x: (s: number) => number;
}) {
  const own = notes.filter((n) => bonus.has(n.id));
  const [first, last] = [own[0], own.at(-1)];
  if (first === undefined || last === undefined) return null;
  const from = x(first.start) - 10;
  const to = Math.max(x(last.start) + 20, from + 30);
  return (
    <g>
      <path className="inkl" strokeWidth="1.3" d={`M${from} 24V16H${to}V24`} />
      <text x={(from + to) / 2} y="11" className="m sb">
        base +10 %
      </text>
    </g>
  );
}

/** Width of a letter of a name, in pixels. */
const LETTER = 8;

/** Names of neighbours that would touch stand on two heights, jumps above the staff and the rest below it: 0 or 1. */
function heights(notes: readonly StripNote[], x: (s: number) => number): readonly number[] {
  const taken = { above: [-Infinity, -Infinity], below: [-Infinity, -Infinity] };
  return notes.map(({ code, start }) => {
    const ends = elementOf(code)?.kind === 'jump' ? taken.above : taken.below;
    const half = (code.length * LETTER) / 2;
    const height = (ends[0] ?? 0) <= x(start) - half || (ends[0] ?? 0) <= (ends[1] ?? 0) ? 0 : 1;
    ends[height] = x(start) + half;
    return height;
  });
}

const turnsOf = (element: Element | null): number[] =>
  element?.kind === 'jump' ? element.jumps.map((j) => Math.ceil(j.turns)) : [0];

function traceOf(notes: readonly StripNote[], x: (s: number) => number): TraceNote[] {
  return notes.map((n) => {
    const kind = elementOf(n.code)?.kind ?? 'unknown';
    return { kind, x: x(n.start), wide: kind === 'spin' ? 40 : kind === 'steps' || kind === 'choreo' ? 64 : 16 };
  });
}

const statement = (notes: readonly StripNote[], seconds: number): string =>
  `Along ${clock(seconds)} of music: ${notes.map((n) => `${clock(n.start)} ${n.code}`).join(', ')}.`;
