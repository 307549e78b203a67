/** The trace: one line along the music, a hop for a jump, coils for a spin, waves for steps. */
export interface TraceNote {
  readonly kind: 'jump' | 'spin' | 'steps' | 'choreo' | 'unknown';
  readonly x: number;
  /** Pixels that the element takes along the music. */
  readonly wide: number;
}

const round = (n: number): string => String(Math.round(n * 10) / 10);

/** Path data of the whole line from `from` to `to` at height `y`. */
export function tracePath(notes: readonly TraceNote[], from: number, to: number, y: number): string {
  let path = `M${round(from)} ${y}`;
  for (const note of notes) {
    const start = note.x - note.wide / 2;
    path += `L${round(start)} ${y}`;
    path +=
      note.kind === 'spin' ? coils(note, y) : note.kind === 'jump' || note.kind === 'unknown' ? hop(note) : waves(note);
  }
  return `${path}L${round(to)} ${y}`;
}

const hop = (note: TraceNote): string => `q${round(note.wide / 2)} -9 ${round(note.wide)} 0`;

function waves(note: TraceNote): string {
  const quarter = note.wide / 5;
  const up = `q${round(quarter / 2)} -12 ${round(quarter)} 0`;
  const down = `q${round(quarter / 2)} 12 ${round(quarter)} 0`;
  return up + down + up + down + up;
}

const COILS = 5;
const STEPS = 14;

/** Loops that advance along the line: a circle whose middle moves. */
function coils(note: TraceNote, y: number): string {
  let path = '';
  for (let i = 1; i <= COILS * STEPS; i += 1) {
    const turn = (i / STEPS) * 2 * Math.PI;
    const along = note.x - note.wide / 2 + (i / (COILS * STEPS)) * note.wide;
    path += `L${round(along + 5 * Math.sin(turn))} ${round(y - 6 + 6 * Math.cos(turn))}`;
  }
  return path;
}
