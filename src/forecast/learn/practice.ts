import { parseCode, type Element, type Jump, type JumpElement } from '../../notation/index.ts';
import type { Skated } from './skated.ts';

/** A run-through as logged at the boards: what was planned, and only what was other than planned. */
export interface LoggedRunThrough {
  /** ISO date or instant; later ones weigh more. */
  readonly at: string;
  /** Codes as planned, in skating order. */
  readonly elements: readonly string[];
  /** By place in the order, from 1, in the words of the log. */
  readonly exceptions: readonly { readonly no: number; readonly what: string }[];
}

/** A run-through as learning takes it. */
export interface PracticeRow {
  readonly skated: readonly Skated[];
  readonly weight: number;
}

/**
 * What one run-through counts beside one competition: no panel, no pressure, another day's ice. Common
 * practice, no source; the forecast says so beside every range that rests on it.
 */
export const PRACTICE_SHARE = 0.25;
/** Run-throughs that count, newest first. Common practice, no source. */
export const PRACTICE_LAST = 12;
/** Share of its weight that a run-through keeps for every later one. Common practice, no source. */
const KEPT = 0.95;

/**
 * The words of the log for what may become of a jump, and what they mean. "stepped out" and words that
 * are not known say nothing of calls: the jump stands as it was meant. null: it was not tried.
 */
function asSkated(planned: JumpElement, first: Jump, what: string): Skated | null {
  const alone = (jump: Jump): Element => ({ kind: 'jump', jumps: [jump], markers: [] });
  const same = (jump: Jump): Element => ({ ...planned, jumps: [jump, ...planned.jumps.slice(1)] });
  const stood = (element: Element): Skated => ({ element, grade: null, fall: false });
  switch (what) {
    case 'left out':
      return null;
    case 'opened':
      return stood(alone({ ...first, turns: Math.max(0, first.turns - 1) }));
    case 'short':
      return stood(same({ ...first, rotation: '<' }));
    case 'edge':
      return stood(same({ ...first, edge: 'e' }));
    case 'no tail':
      return stood(alone(first));
    case 'fell':
      return { element: alone(first), grade: null, fall: true };
    default:
      return stood(planned);
  }
}

function jumpsOf(run: LoggedRunThrough): readonly Skated[] {
  const said = new Map(run.exceptions.map(({ no, what }) => [no, what]));
  return run.elements.flatMap((code, i) => {
    const parsed = parseCode(code);
    const element = parsed.ok ? parsed.value.element : null;
    const first = element?.kind === 'jump' ? element.jumps[0] : undefined;
    if (element?.kind !== 'jump' || first === undefined) return [];
    const skated = asSkated(element, first, said.get(i + 1) ?? '');
    return skated === null ? [] : [skated];
  });
}

/**
 * Turns logged run-throughs into evidence for `learnElement`: the last twelve, newest weighing most,
 * each a quarter of a competition. They tell of jumps: a level and a grade are the panel's to give.
 */
export function practiceRows(runs: readonly LoggedRunThrough[]): readonly PracticeRow[] {
  return runs
    .toSorted((a, b) => b.at.localeCompare(a.at))
    .slice(0, PRACTICE_LAST)
    .map((run, i) => ({ skated: jumpsOf(run), weight: PRACTICE_SHARE * KEPT ** i }));
}

/** What stands beside a range that rests on run-throughs; nothing where none counts. */
export const practiceWords = (count: number): readonly string[] =>
  count === 0
    ? []
    : [
        `Beside them the jumps of ${count} logged ${count === 1 ? 'run-through' : 'run-throughs'}, each counted as a quarter of a competition (common practice, no source).`,
      ];
