import { parseCode } from '../../../../src/notation/index.ts';
import type { MendStep } from '../../../../src/programs/index.ts';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { withCode, type PlanNote } from './notes.ts';

type Form = Readonly<Record<string, unknown>>;

const codesOf = (form: Form): string[] =>
  Array.isArray(form.elements)
    ? (form.elements as { code?: unknown }[]).flatMap((e) => (typeof e.code === 'string' ? [e.code] : []))
    : [];

/** A code as it would be planned: what the panel called is no plan. */
function planned(code: string): string[] {
  const parsed = parseCode(code);
  return parsed.ok && !/[<q!*]|e(?=\+|$)|V|REP/.test(code) ? [code] : [];
}

/**
 * What a skater has skated or planned: codes of every version and of the sheets, without what is held
 * back until a date. Nothing else is suggested to mend a rule.
 */
export function repertoireOf(
  layouts: readonly LayoutRecord[],
  history: readonly Form[],
  notNow: Skater['notNow'],
): string[] {
  const held = new Set(notNow.map((n) => n.code));
  const all = [...layouts.flatMap((l) => codesOf(l.form)), ...history.flatMap(codesOf).flatMap(planned)];
  return [...new Set(all)].filter((code) => !held.has(code));
}

/** The notes with a way to mend applied, step by step; steps count places in skating order. */
export function mendedNotes(
  notes: readonly PlanNote[],
  steps: readonly MendStep[],
  seconds: number,
  newNoteId: () => string,
): PlanNote[] {
  return steps.reduce<PlanNote[]>((all, step) => stepped(inOrder(all), step, seconds, newNoteId), inOrder(notes));
}

const inOrder = (notes: readonly PlanNote[]): PlanNote[] => notes.toSorted((a, b) => a.start - b.start);

function stepped(notes: PlanNote[], step: MendStep, seconds: number, newNoteId: () => string): PlanNote[] {
  switch (step.kind) {
    case 'take-out':
      return notes.filter((_, i) => i !== step.no - 1);
    case 'change':
      return notes.map((note, i) => (i === step.no - 1 ? withCode(note, step.to) : note));
    case 'exchange': {
      const [a, b] = [notes[step.no - 1], notes[step.other - 1]];
      if (a === undefined || b === undefined) return notes;
      return notes.map((note) =>
        note === a ? { ...a, start: b.start } : note === b ? { ...b, start: a.start } : note,
      );
    }
    case 'add': {
      const start = Math.min(seconds - 1, (notes.at(-1)?.start ?? 0) + 10);
      return [...notes, { id: newNoteId(), code: step.code, start, more: {} }];
    }
  }
}
