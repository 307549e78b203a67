import type { Element, Jump, JumpElement, SpinElement } from '../notation/index.ts';
import { align, type Pair } from './align.ts';

/**
 * Costs of reading one element as another. Only their order matters: the same element 0, fewer turns
 * or a missing partner small, another jump or spin larger, another kind never. Leaving both sides
 * without a partner costs twice `ALONE`.
 */
const FEWER_TURNS = 1;
const MISSING_PARTNER = 2;
const OTHER_JUMP = 4;
const OTHER_SPIN = 3;
const UNREADABLE = 5;
const ALONE = 10;

/** Jump by jump inside an element, in skating order: where the calls of the one sit on the other. */
export function pairJumps(left: readonly Jump[], right: readonly Jump[]): Pair<Jump, Jump>[] {
  return align(left, right, { pair: jumpCost, alone: MISSING_PARTNER });
}

function jumpCost(left: Jump, right: Jump): number {
  if (left.name !== right.name) return OTHER_JUMP - 0.5;
  return left.turns === right.turns ? 0 : FEWER_TURNS + Math.abs(left.turns - right.turns) / 10;
}

/** What it costs to read `planned` as `executed`; calls, levels and V are left aside. */
export function elementCost(planned: Element, executed: Element): number {
  if (planned.kind === 'jump' && executed.kind === 'jump') return jumpElementCost(planned, executed);
  if (planned.kind === 'spin' && executed.kind === 'spin') return spinCost(planned, executed);
  if (planned.kind === 'choreo' && executed.kind === 'choreo') return planned.form === executed.form ? 0 : OTHER_SPIN;
  return planned.kind === executed.kind ? 0 : Infinity;
}

function jumpElementCost(planned: JumpElement, executed: JumpElement): number {
  const cost = pairJumps(planned.jumps, executed.jumps).reduce((sum, { left, right }) => {
    return sum + (left === null || right === null ? MISSING_PARTNER : jumpCost(left, right));
  }, 0);
  return Math.min(cost, 2 * ALONE - 1);
}

function spinCost(planned: SpinElement, executed: SpinElement): number {
  const differences = [
    planned.position !== executed.position,
    planned.changeFoot !== executed.changeFoot,
    planned.flying !== executed.flying,
  ];
  return differences.filter(Boolean).length * OTHER_SPIN;
}

/** Planned and executed elements of one program as partners, in skating order; null: cannot be read. */
export function pairElements<A extends { readonly element: Element }, B extends { readonly element: Element | null }>(
  planned: readonly A[],
  executed: readonly B[],
): Pair<A, B>[] {
  const pair = (left: A, right: B): number =>
    right.element === null ? UNREADABLE : elementCost(left.element, right.element);
  return align(planned, executed, { pair, alone: ALONE });
}
