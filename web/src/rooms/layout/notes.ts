import type { LayoutRecord } from '../../data/api.ts';
import type { StripNote } from '../../figures/strip-note.ts';

type Form = Readonly<Record<string, unknown>>;

/** A planned element on the strip, with everything else that its form says. */
export interface PlanNote extends StripNote {
  /** Fields of the element besides code and start: grade, reliability, outcomes. */
  readonly more: Form;
}

const elementsOf = (form: Form): readonly Form[] => (Array.isArray(form.elements) ? (form.elements as Form[]) : []);

/** Elements of a form as notes; what has no time yet is spread evenly over the music. */
export function notesOf(form: Form, seconds: number): PlanNote[] {
  const elements = elementsOf(form);
  return elements.map(({ code, start, ...more }, i) => ({
    id: `n${i}`,
    code: typeof code === 'string' ? code : '',
    start: typeof start === 'number' ? start : Math.round(((i + 0.5) / elements.length) * seconds),
    more,
  }));
}

/** The form with these notes as its elements. */
export const formOf = (form: Form, notes: readonly PlanNote[]): Record<string, unknown> => ({
  ...form,
  elements: notes.map(({ code, start, more }) => ({ ...more, code, start })),
});

/** Another element on the place of a note: what was said of the old one is not said of the new one. */
export const withCode = (note: PlanNote, code: string): PlanNote =>
  code === note.code ? note : { ...note, code, more: {} };

/** A note with how often it comes off; null: as learnt. */
export function withReliability(note: PlanNote, reliability: number | null): PlanNote {
  const more = Object.fromEntries(Object.entries(note.more).filter(([field]) => field !== 'reliability'));
  return { ...note, more: reliability === null ? more : { ...more, reliability } };
}

export const reliabilityIn = (note: PlanNote): number | null =>
  typeof note.more.reliability === 'number' ? note.more.reliability : null;

/** Codes in skating order on the times of the old notes; further ones are spread evenly. */
export function spread(codes: readonly string[], notes: readonly PlanNote[], seconds: number): PlanNote[] {
  const open = [...notes];
  return codes.map((code, i) => {
    const known = open.findIndex((n) => n.code === code);
    const [before] = known < 0 ? [] : open.splice(known, 1);
    const evenly = Math.round(((i + 0.5) / codes.length) * seconds);
    const start = codes.length === notes.length ? (notes[i]?.start ?? evenly) : evenly;
    return { id: `k${i}`, code, start, more: before?.more ?? {} };
  });
}

/** Versions of one program: the same segment of the same skater. */
export const sameProgram =
  (one: LayoutRecord) =>
  (other: LayoutRecord): boolean =>
    other.segment === one.segment;
