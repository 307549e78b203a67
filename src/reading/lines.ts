import type { ChosenRules } from '../rulebook/index.ts';
import type { Layout } from '../scoring/index.ts';
import { pairElements } from './pairing.ts';
import { cleanReference, plannedElements, usualReference, type Planned } from './reference.ts';
import type { Reference, Skated } from './sides.ts';
import type { ReferenceKind } from './types.ts';
import type { Usual } from './usual.ts';

/** What the account is made against. */
export interface LedgerBasis {
  readonly kind: ReferenceKind;
  /** Needed for `layout`. */
  readonly layout: Layout | null;
  /** Needed for `usual`; a layout's silence on level or grade is filled from it. */
  readonly usual: Usual | null;
}

/** One element of the program as both sides have it. */
export type Line =
  | { readonly kind: 'both'; readonly skated: Skated; readonly reference: Reference; readonly planned: Planned | null }
  | { readonly kind: 'added'; readonly skated: Skated; readonly reference: Reference }
  | { readonly kind: 'missing'; readonly planned: Planned }
  | { readonly kind: 'unreadable'; readonly index: number };

export interface Lines {
  readonly lines: readonly Line[];
  readonly warnings: readonly string[];
}

/** Sheet and reference side by side, in skating order. */
export function linesOf(skated: readonly (Skated | null)[], rules: ChosenRules, basis: LedgerBasis): Lines {
  return basis.kind === 'layout' && basis.layout !== null
    ? againstLayout(skated, rules, basis.layout, basis.usual)
    : { lines: skated.map((one, index) => againstItself(one, index, rules, basis)), warnings: [] };
}

function againstItself(skated: Skated | null, index: number, rules: ChosenRules, basis: LedgerBasis): Line {
  if (skated === null) return { kind: 'unreadable', index };
  const reference =
    basis.kind === 'usual' && basis.usual !== null
      ? usualReference(skated.element, rules, basis.usual)
      : cleanReference(skated.element, rules);
  return { kind: 'both', skated, reference, planned: null };
}

function againstLayout(
  skated: readonly (Skated | null)[],
  rules: ChosenRules,
  layout: Layout,
  usual: Usual | null,
): Lines {
  const { planned, warnings } = plannedElements(layout, rules, usual);
  const sheet = skated.map((one, index) => ({ index, skated: one, element: one?.element ?? null }));
  const lines = pairElements(planned, sheet).flatMap(({ left, right }): Line[] => {
    if (right === null) return left === null ? [] : [{ kind: 'missing', planned: left }];
    const one = right.skated;
    if (one === null) return [{ kind: 'unreadable', index: right.index }];
    if (left === null) return [{ kind: 'added', skated: one, reference: cleanReference(one.element, rules) }];
    return [{ kind: 'both', skated: one, reference: left, planned: left }];
  });
  return { lines, warnings };
}
