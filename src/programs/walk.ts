import {
  bonusPlaces,
  callNext,
  finish,
  startProgram,
  type Called,
  type Missing,
  type ProgramState,
} from '../scoring/index.ts';
import type { Planned } from './planned.ts';
import type { SegmentRules } from './segment-rules.ts';

/** A program as a panel would call it if everything is skated as planned. */
export interface Walk {
  /** Same order as the plan. */
  readonly called: readonly Called[];
  readonly missing: readonly Missing[];
  readonly end: ProgramState;
}

/** Calls the planned elements in skating order. */
export function walk(planned: readonly Planned[], rules: SegmentRules): Walk {
  const places = bonusPlaces(
    planned.map((p) => ({ isJump: p.element.kind === 'jump', half: p.half, start: p.start })),
    rules.content,
  );
  let state = startProgram(rules.content, rules.chosen.values.values, rules.chosen.segment);
  const called = planned.map((p, i) => {
    const next = callNext(state, p.element, { bonus: places[i] === true });
    state = next.state;
    return next;
  });
  return { called, missing: finish(state), end: state };
}
