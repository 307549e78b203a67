import { fail, formatElement, ok, type Result } from '../../notation/index.ts';
import type { ChosenRules, Hundredths } from '../../rulebook/index.ts';
import type { Layout } from '../../scoring/index.ts';
import { checkLayout } from '../check/check.ts';
import { readPlannedElements, type Planned } from '../planned.ts';
import { segmentRules, type SegmentRules } from '../segment-rules.ts';
import { bestContinuation, skate, tailsOf } from './continuations.ts';
import { voidedLater, type VoidedLater } from './voided.ts';
import { mishapsOf, type Mishap, type MishapKind } from './mishaps.ts';
import { cardText, putBackRules, regret, specialRule, TOLERABLE, type Case, type Rule } from './sentences.ts';

/** A jump element that may go wrong, what going on as planned would cost, and what to do instead. */
export interface RescueCase {
  readonly no: number;
  readonly planned: string;
  readonly kind: MishapKind;
  /** What is then on the sheet. */
  readonly done: string;
  /** Later elements that lose value by the mishap if the rest is skated as planned. */
  readonly voids: readonly VoidedLater[];
  /** The best legal way to go on. Empty: as planned. */
  readonly changes: readonly { readonly no: number; readonly planned: string; readonly instead: string }[];
  /** Points that the changes bring over going on as planned. */
  readonly gain: Hundredths;
}

export interface RescueResult {
  readonly id: string | null;
  readonly rulebook: string;
  readonly legal: boolean | null;
  /** At most three sentences that a child can remember. */
  readonly card: readonly string[];
  /** No such card saves what can be saved: somewhere more than half a point stays behind. */
  readonly fragile: boolean;
  /** Most points that the card leaves behind in one case. */
  readonly leftBehind: Hundredths;
  readonly cases: readonly RescueCase[];
  readonly warnings: readonly string[];
}

const SENTENCES = 3;

function describe(one: Case, planned: readonly Planned[], rules: SegmentRules): RescueCase {
  const { mishap } = one;
  const asPlanned = skate(planned, new Map([[mishap.no, mishap.done]]), rules);
  const clean = skate(planned, new Map(), rules);
  const code = (no: number): string => planned[no - 1]?.code ?? '';
  return {
    no: mishap.no,
    planned: code(mishap.no),
    kind: mishap.kind,
    done: formatElement(mishap.done),
    voids: voidedLater(mishap.no, planned, clean, asPlanned),
    changes: [...one.changes].map(([no, element]) => ({ no, planned: code(no), instead: formatElement(element) })),
    gain: one.points - asPlanned.points,
  };
}

/** How much a mishap weighs when sentences are chosen. */
const weight = (mishap: Mishap): number => Math.max(0.02, mishap.chance ?? 0.2);

const totalRegret = (
  cases: readonly Case[],
  card: readonly Rule[],
  planned: readonly Planned[],
  rules: SegmentRules,
): number => cases.reduce((sum, one) => sum + weight(one.mishap) * Math.max(0, regret(one, card, planned, rules)), 0);

/** Cases of one element with one and the same answer, together. */
function alike(cases: readonly Case[]): readonly (readonly Case[])[] {
  const groups = new Map<string, Case[]>();
  for (const one of cases) {
    if (one.changes.size === 0) continue;
    const answer = [...one.changes].map(([no, element]) => `${no} ${formatElement(element)}`).join(' ');
    const key = `${one.mishap.no} ${one.mishap.kind === 'tail-popped' ? 'tail' : ''} ${answer}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()];
}

/** Sentences, best first: one general one if it helps, then the special cases that cost most. */
function writeCard(cases: readonly Case[], planned: readonly Planned[], rules: SegmentRules): readonly Rule[] {
  const card: Rule[] = [];
  let open = totalRegret(cases, card, planned, rules);
  const candidates = [
    ...putBackRules(planned, tailsOf(planned)),
    ...alike(cases).map((group) => specialRule(group, planned)),
  ];
  while (card.length < SENTENCES && open > 0) {
    let best: { readonly rule: Rule; readonly left: number } | null = null;
    for (const rule of candidates) {
      const left = totalRegret(cases, [...card, rule], planned, rules);
      if (left < (best?.left ?? open) - 1) best = { rule, left };
    }
    if (best === null) break;
    card.push(best.rule);
    open = best.left;
  }
  return card;
}

const noJumps = () =>
  fail({
    code: 'programs.no-jumps',
    at: 'elements',
    found: 'no jump element',
    expected: 'a layout with jumps',
    advice: 'A plan B is made for jump elements.',
  });

/**
 * Plan B of a layout: for each jump element that may be popped or lose its partner, the best legal way
 * to go on with the tails that the program already holds, shrunk to at most three sentences.
 */
export function rescue(layout: Layout, chosen: ChosenRules): Result<RescueResult> {
  const rules = segmentRules(chosen);
  const planned = readPlannedElements(layout, rules);
  if (!planned.ok) return planned;
  const checked = checkLayout(layout, chosen);
  if (!checked.ok) return checked;
  const mishaps = planned.value.flatMap(mishapsOf);
  if (mishaps.length === 0) return noJumps();
  const cases = mishaps.map((mishap): Case => ({ mishap, ...bestContinuation(planned.value, mishap, rules) }));
  const card = writeCard(cases, planned.value, rules);
  const leftBehind = Math.max(0, ...cases.map((one) => regret(one, card, planned.value, rules)));
  return ok({
    id: layout.id,
    rulebook: chosen.id,
    legal: checked.value.legal,
    card: cardText(card, cases),
    fragile: leftBehind > TOLERABLE,
    leftBehind,
    cases: cases.map((one) => describe(one, planned.value, rules)),
    warnings: checked.value.warnings,
  });
}
