import type { Jump, JumpElement } from '../../notation/index.ts';
import type { SlotRule } from '../../rulebook/index.ts';
import { hasMarker, isEuler, isUnit, kindOf, mark, voidJumps } from './jumps.ts';
import { beyondTurns, judgeEulers } from './limits.ts';
import type { Called, ProgramState, Reason, Tries } from './types.ts';

type Slot = SlotRule['slot'];
type Slots = ProgramState['slots'];

const slotRule = (state: ProgramState, slot: Slot): SlotRule | undefined =>
  state.rules.content.slots?.find((s) => s.slot === slot);

/** Names: null means any but the Axel. */
const fitsSlot = (jump: Jump, rule: SlotRule | undefined): boolean =>
  rule !== undefined &&
  (rule.names === null ? jump.name !== 'A' : rule.names.includes(jump.name)) &&
  rule.turns.includes(jump.turns);

const slotPath = (state: ProgramState, slot: Slot): string =>
  `slots.${state.rules.content.slots?.findIndex((s) => s.slot === slot) ?? 0}`;

/** Where a single jump goes: its slot, the slot it spoils, or nowhere. */
interface Place {
  readonly slot: Slot | null;
  readonly valid: boolean;
}

/**
 * An Axel fills the Axel slot, or the solo slot where that takes one; order does not matter (a 3A done
 * before the 2A becomes the solo jump). One that fits neither spoils the Axel slot.
 */
function placeAxel(jump: Jump, state: ProgramState): Place {
  const { axel } = state.slots;
  const fitsAxel = fitsSlot(jump, slotRule(state, 'axel'));
  const soloOpen = placesLeft(state.slots) > 0;
  if (axel === null && fitsAxel) return { slot: 'axel', valid: true };
  if (fitsSlot(jump, slotRule(state, 'solo')) && soloOpen) return { slot: 'solo', valid: true };
  if (axel === null) return { slot: 'axel', valid: false };
  if (!soloOpen) return { slot: null, valid: false };
  return { slot: 'solo', valid: fitsAxel && fitsSlot(axel, slotRule(state, 'solo')) };
}

/** Solo and combination together are two places; a second solo jump takes the place of the combination. */
const placesLeft = (slots: Slots): number => 2 - slots.alone - slots.combination;

function placeSingle(jump: Jump, state: ProgramState): Place {
  if (jump.name === 'A') return placeAxel(jump, state);
  if (placesLeft(state.slots) <= 0) return { slot: null, valid: false };
  return { slot: 'solo', valid: fitsSlot(jump, slotRule(state, 'solo')) };
}

const take = (state: ProgramState, slot: Slot, jump: Jump | null = null): ProgramState => ({
  ...state,
  slots: {
    axel: slot === 'axel' ? jump : state.slots.axel,
    alone: state.slots.alone + (slot === 'solo' ? 1 : 0),
    combination: state.slots.combination + (slot === 'combination' ? 1 : 0),
  },
});

const noValue = (rule: Reason['rule'], path: string, jump: number | null): Reason => ({
  rule,
  path,
  effect: 'no-value',
  jump,
});

const lowest = (rule: Reason['rule'], path: string): Reason => ({ rule, path, effect: 'lowest-grade', jump: null });

/** Jumps that already stood in another slot; the same jump twice inside one combination is allowed. */
function repeated(element: JumpElement, state: ProgramState): readonly Reason[] {
  return element.jumps.flatMap((jump, index) =>
    !isEuler(jump) && jump.turns >= 1 && state.tries[kindOf(jump)] !== undefined
      ? [noValue('slot-repeat', 'slots', index)]
      : [],
  );
}

function remember(element: JumpElement, state: ProgramState): ProgramState {
  const tries: Record<string, Tries> = { ...state.tries };
  for (const jump of element.jumps) {
    if (!isEuler(jump) && jump.turns >= 1) tries[kindOf(jump)] = { times: 1, alwaysAlone: false };
  }
  return { ...state, tries };
}

/** A single jump. The second one without a combination so far is the combination that was not done. */
function judgeSingle(jump: Jump, state: ProgramState): readonly [readonly Reason[], ProgramState] {
  const place = placeSingle(jump, state);
  if (place.slot === null) return [[noValue('jump-elements', 'jumpElements.max', null)], state];
  const path = slotPath(state, place.slot);
  const replacesCombination = place.slot === 'solo' && state.slots.alone === 1;
  const reasons: Reason[] = place.valid || replacesCombination ? [] : [noValue('slots', path, 0)];
  if (replacesCombination) reasons.push(...withoutCombination(jump, state));
  return [reasons, take(state, place.slot, jump)];
}

/** `+COMBO` on the jump that stands where the combination should: it must at least fit as a part of one. */
function withoutCombination(jump: Jump, state: ProgramState): readonly Reason[] {
  const path = slotPath(state, 'combination');
  const pairs = slotRule(state, 'combination')?.pairs ?? null;
  if (pairs !== null && !pairs.some((pair) => pair.includes(jump.turns))) return [noValue('slots', path, 0)];
  return [{ rule: 'combination-missing', path, effect: 'marked', jump: null }, lowest('combination-missing', path)];
}

const pairAllowed = (a: number, b: number, pairs: readonly (readonly [number, number])[]): boolean =>
  pairs.some(([x, y]) => (x === a && y === b) || (x === b && y === a));

/** Which of two jumps spoils a combination whose turns are not allowed together: the one that fits no pair, else the lower one. */
function offender(turns: readonly [number, number], pairs: readonly (readonly [number, number])[]): readonly number[] {
  const fitsAny = turns.map((t) => pairs.some((pair) => pair.includes(t)));
  const misfits = [0, 1].filter((i) => fitsAny[i] === false);
  if (misfits.length > 0) return misfits;
  return [turns[0] < turns[1] ? 0 : 1];
}

function wrongTurns(element: JumpElement, rule: SlotRule | undefined, path: string): readonly Reason[] {
  const listed = [...element.jumps.entries()].filter(([, jump]) => !isEuler(jump));
  const [first, second] = listed;
  if (first === undefined || second === undefined || rule === undefined) return [];
  const turns: readonly [number, number] = [first[1].turns, second[1].turns];
  const reasons: Reason[] = [];
  if (rule.pairs !== null && !pairAllowed(turns[0], turns[1], rule.pairs)) {
    const order = [first[0], second[0]] as const;
    reasons.push(...offender(turns, rule.pairs).map((i) => noValue('slots', `${path}.pairs`, order[i] ?? 1)));
  }
  if (rule.secondNames !== null && !rule.secondNames.includes(second[1].name)) {
    reasons.push(noValue('slots', `${path}.secondNames`, second[0]));
  }
  return reasons;
}

/** Listed jumps of a short-program combination; the Euler fills a place where it counts and is not expressly allowed. */
function beyondTwo(element: JumpElement, state: ProgramState): readonly Reason[] {
  const most = state.rules.content.jumpsPerUnit?.[0] ?? null;
  if (most === null) return [];
  const eulerFills = state.rules.values.euler.counts === true && state.rules.content.eulerAllowed !== true;
  let counted = 0;
  return element.jumps.flatMap((jump, index) => {
    if (!isEuler(jump) || eulerFills) counted++;
    return counted > most ? [noValue('jumps-per-unit', 'jumpsPerUnit', index)] : [];
  });
}

/** Only the first jump counts: a second combination, or a sequence where none may be skated. */
function onlyFirst(element: JumpElement, rule: Reason['rule'], path: string): readonly Reason[] {
  return [...element.jumps.keys()].slice(1).map((index) => noValue(rule, path, index));
}

function judgeCombination(element: JumpElement, state: ProgramState): readonly [readonly Reason[], ProgramState] {
  if (placesLeft(state.slots) <= 0) return [[noValue('jump-elements', 'jumpElements.max', null)], state];
  const [first] = element.jumps;
  if (state.slots.combination > 0 && first !== undefined) {
    const valid = fitsSlot(first, slotRule(state, 'solo'));
    const wrong = valid ? [] : [noValue('slots', slotPath(state, 'solo'), 0)];
    return [[...wrong, ...onlyFirst(element, 'units', 'maxUnits')], take(state, 'solo')];
  }
  const path = slotPath(state, 'combination');
  const rule = slotRule(state, 'combination');
  const reasons =
    hasMarker(element, 'SEQ') && state.rules.content.maxSequences === 0
      ? onlyFirst(element, 'sequences', 'maxSequences')
      : wrongTurns(element, rule, path);
  return [[...reasons, ...beyondTwo(element, state)], take(state, 'combination')];
}

const isBarred = (reasons: readonly Reason[], index: number): boolean =>
  reasons.some((r) => r.effect === 'no-value' && (r.jump === null || r.jump === index));

/** A unit that keeps some value although one of its jumps broke a rule ends at the lowest grade. */
function spoiled(element: JumpElement, reasons: readonly Reason[]): readonly Reason[] {
  const barred = element.jumps.filter((_, i) => isBarred(reasons, i)).length;
  const cause = reasons.find((r) => r.effect === 'no-value');
  return cause !== undefined && barred > 0 && barred < element.jumps.length ? [lowest(cause.rule, cause.path)] : [];
}

/** Calls one jump element of a short program against the three jump slots. */
export function callShortJump(element: JumpElement, state: ProgramState, bonus: boolean): Called {
  const [first] = element.jumps;
  const [placing, placed] =
    isUnit(element) || first === undefined ? judgeCombination(element, state) : judgeSingle(first, state);
  const eulers = judgeEulers(element, placed);
  const content = [...placing, ...repeated(element, state), ...eulers.voided, ...beyondTurns(element, state)];
  const reasons = [...content, ...spoiled(element, content)];
  const barred = new Set([...element.jumps.keys()].filter((i) => isBarred(reasons, i)));
  const voided = voidJumps(element, barred);
  const called = reasons.some((r) => r.effect === 'marked') && barred.size === 0 ? mark(voided, 'COMBO') : voided;
  const next: ProgramState = {
    ...remember(element, eulers.state),
    jumpElements: state.jumpElements + 1,
    axelDone: state.axelDone || element.jumps.some((jump) => jump.name === 'A' && jump.turns >= 1),
  };
  return {
    element: called,
    half: bonus,
    lowestGrade: reasons.some((r) => r.effect === 'lowest-grade'),
    reasons,
    state: next,
  };
}
