import { parseCode } from '../../../../src/notation/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { bonusPlaces } from '../../../../src/scoring/index.ts';
import type { Ahead } from '../../data/ahead.ts';
import { withReliability, type PlanNote } from './notes.ts';

/** Days of twenty on which an element comes off. */
export const DAYS = 20;
/** "Hardly ever" and "nearly always" are not never and always. */
const SELDOM = 0.5 / DAYS;
/** The chance, 0 to 1, that a slider on this many days of twenty stands for. */
export const chanceOf = (onDays: number): number => Math.min(1 - SELDOM, Math.max(SELDOM, onDays / DAYS));

const KINDS = ['jump', 'spin', 'steps', 'choreo', null] as const;
type Kind = (typeof KINDS)[number];

interface Planned {
  readonly kind: Kind;
  readonly half: boolean | null;
}

function plannedIn({ code, more }: PlanNote): Planned {
  const parsed = parseCode(code);
  const said = typeof more.half === 'boolean' ? more.half : null;
  if (!parsed.ok) return { kind: null, half: said };
  return { kind: parsed.value.element.kind, half: said ?? (parsed.value.half ? true : null) };
}

/** Which notes stand where the second-half factor counts; where the rules do not know, no place changes that. */
function bonusOf(
  notes: readonly PlanNote[],
  planned: readonly Planned[],
  rules: ChosenRules | null,
): readonly boolean[] {
  const content = rules?.content.content(rules.category, rules.segment);
  if (content === undefined || content.bonusLast === null) return [];
  const placements = planned.map(({ kind, half }, i) => ({
    isJump: kind === 'jump',
    half,
    start: notes[i]?.start ?? null,
  }));
  return bonusPlaces(placements, content);
}

/**
 * Names what the range of a program hangs on: equal keys have equal ranges. Notes in skating order. Where
 * in the music an element stands counts by the half alone, and a jump may pass a spin: repeats and
 * surplus are counted among jumps, among spins, among sequences.
 */
export function programKey(notes: readonly PlanNote[], rules: ChosenRules | null, target: number | null): string {
  const planned = notes.map(plannedIn);
  const bonus = bonusOf(notes, planned, rules);
  const parts = notes.map(({ code, more }, i) => [code, more, bonus[i] === true]);
  return JSON.stringify([target, KINDS.map((kind) => parts.filter((_, i) => planned[i]?.kind === kind))]);
}

/** What the programs ahead are made from. */
export interface Page {
  /** As it rests, in skating order. */
  readonly notes: readonly PlanNote[];
  readonly rules: ChosenRules | null;
  readonly seconds: number;
  readonly target: number | null;
  readonly layoutOf: (notes: readonly PlanNote[]) => Record<string, unknown>;
}

/** A slider that a hand is on: index from 0, and the days it stands on. */
export interface Taken {
  readonly index: number;
  readonly days: number;
}

export const inOrder = (notes: readonly PlanNote[]): PlanNote[] => notes.toSorted((a, b) => a.start - b.start);

/** The programs that come of moving one note along the music, nearest first. */
export function movesAhead(page: Page, id: string): Ahead[] {
  const { notes, rules, seconds, target, layoutOf } = page;
  const own = notes.find((n) => n.id === id);
  if (own === undefined) return [];
  const half = Math.ceil(seconds / 2);
  // Order and half can change beside another note and at the half, nowhere else.
  const places = [half - 1, half, ...notes.flatMap((n) => [n.start - 1, n.start, n.start + 1])]
    .filter((s) => s >= 0 && s < seconds)
    .sort((a, b) => Math.abs(a - own.start) - Math.abs(b - own.start));
  const found = new Map<string, Ahead>();
  for (const start of places) {
    const moved = inOrder(notes.map((n) => (n.id === id ? { ...n, start } : n)));
    const key = programKey(moved, rules, target);
    if (!found.has(key)) found.set(key, { key, target, layout: layoutOf(moved) });
  }
  return [...found.values()];
}

/** The programs that come of moving one slider, nearest first. `index` from 0, `days` where it stands. */
export function daysAhead({ notes, rules, target }: Page, index: number, days: number): Ahead[] {
  const of = programKey(notes, rules, target);
  return Array.from({ length: DAYS + 1 }, (_, day) => day)
    .sort((a, b) => Math.abs(a - days) - Math.abs(b - days))
    .map((day) => {
      const reliability = chanceOf(day);
      const changed = notes.map((n, i) => (i === index ? withReliability(n, reliability) : n));
      return { key: programKey(changed, rules, target), target, of, index, reliability };
    });
}

/** Neighbours of every note that are worked out while nothing is in hand. */
const NEIGHBOURS = 3;

/** What may be asked next: everything for the note or slider in hand, the nearest places of every note without. */
export function lookingAhead(page: Page, held: string | null, taken: Taken | null): Ahead[] {
  if (held === null && taken === null) return page.notes.flatMap((n) => movesAhead(page, n.id).slice(0, NEIGHBOURS));
  return [
    ...(held === null ? [] : movesAhead(page, held)),
    ...(taken === null ? [] : daysAhead(page, taken.index, taken.days)),
  ];
}
