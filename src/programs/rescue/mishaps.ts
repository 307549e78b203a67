import type { Jump, JumpElement } from '../../notation/index.ts';
import type { Planned } from '../planned.ts';

/** What may go wrong on a jump element. */
export type MishapKind = 'popped' | 'alone' | 'tail-popped';

/** One thing that may go wrong, and the element that is then on the sheet. */
export interface Mishap {
  readonly no: number;
  readonly kind: MishapKind;
  readonly done: JumpElement;
  /** Jumps of the plan that were not done and could be put back later. */
  readonly lost: readonly Jump[];
  /** Chance by the entered outcomes; null where none are entered. */
  readonly chance: number | null;
}

const popped = (jump: Jump): Jump => ({ ...jump, turns: jump.turns - 1 });

const only = (jumps: readonly Jump[], sequence: boolean): JumpElement => ({
  kind: 'jump',
  jumps,
  markers: sequence ? [{ marker: 'SEQ', after: jumps.length }] : [],
});

const isSequence = (element: JumpElement): boolean => element.markers.some((m) => m.marker === 'SEQ');

/** The mishaps of one planned jump element: popped, combination lost, last jump of it popped. */
export function mishapsOf(planned: Planned): readonly Mishap[] {
  const { element, no } = planned;
  if (element.kind !== 'jump') return [];
  const [first, ...tail] = element.jumps;
  if (first === undefined) return [];
  const chance = planned.outcomes === null ? null : 1 - chanceAsPlanned(planned);
  const base = { no, chance };
  const pop: readonly Mishap[] =
    first.turns > 1 ? [{ ...base, kind: 'popped', done: only([popped(first)], false), lost: tail }] : [];
  if (tail.length === 0) return pop;
  const last = tail.at(-1);
  const shorter: readonly Mishap[] =
    last !== undefined && last.turns > 1
      ? [
          {
            ...base,
            kind: 'tail-popped',
            done: only([first, ...tail.slice(0, -1), popped(last)], isSequence(element)),
            lost: [],
          },
        ]
      : [];
  return [...pop, { ...base, kind: 'alone', done: only([first], false), lost: tail }, ...shorter];
}

function chanceAsPlanned(planned: Planned): number {
  return (planned.outcomes ?? []).reduce((sum, o) => sum + (o.code.startsWith(planned.code) && !o.fall ? o.p : 0), 0);
}
