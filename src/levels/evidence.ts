import * as z from 'zod';

import {
  ok,
  parseCode,
  parseFeedback,
  parseInfo,
  type Element,
  type Feedback,
  type Result,
} from '../notation/index.ts';
import { checkForm, readProtocol, type ProtocolElement } from '../scoring/index.ts';
import type { SpinSheet } from './season-spins.ts';
import type { StepSheet, Told } from './season-steps.ts';

/** What the elements of one protocol say about step sequences and combination spins. */
export interface Evidence {
  readonly steps: readonly StepSheet[];
  readonly spins: readonly SpinSheet[];
}

const index = z.int({ error: 'a move by its index, from 0' }).min(0, { error: 'a move by its index, from 0' });
const count = z.int({ error: 'a number of turns' }).min(0, { error: 'a number of turns' });
const told = z.looseObject(
  {
    credited: z.array(index, { error: 'a list of moves' }).nullish(),
    notCredited: z.array(index, { error: 'a list of moves' }).nullish(),
    counted: z.looseObject({ min: count, max: count }, { error: 'counted turns as min and max' }).nullish(),
  },
  { error: 'what the panel told, as an object' },
);
/** A protocol whose elements may carry `told`: what the panel said about them. */
const toldForm = z.looseObject({ elements: z.array(z.looseObject({ told: told.nullish() })) });

/**
 * Reads a protocol as evidence: levels and letters of its step sequences and spins, and what was told
 * by the panel about them. An element that cannot be read says nothing; a protocol that cannot is a problem.
 */
export function readEvidence(value: unknown): Result<Evidence> {
  const protocol = readProtocol(value);
  if (!protocol.ok) return protocol;
  const notes = checkForm(toldForm, value, 'protocol.told');
  if (!notes.ok) return notes;
  const steps: StepSheet[] = [];
  const spins: SpinSheet[] = [];
  protocol.value.elements.forEach((printed, at) => {
    const read = elementOf(printed);
    if (read === null) return;
    const { element, feedback } = read;
    if (element.kind === 'spin')
      spins.push({ element, positions: feedback?.kind === 'missing-position' ? feedback.positions : null });
    if (element.kind === 'steps') {
      const letters = feedback?.kind === 'key-points' ? feedback.letters : null;
      steps.push({ level: element.level, letters, ...toldOf(notes.value.elements[at]?.told) });
    }
  });
  return ok({ steps, spins });
}

/** Letters stand in a field of their own, after the code, or in the info column. */
function elementOf(printed: ProtocolElement): { readonly element: Element; readonly feedback: Feedback | null } | null {
  const code = parseCode(printed.code);
  if (!code.ok) return null;
  const { element } = code.value;
  const own = printed.feedback === null ? null : parseFeedback(printed.feedback, element);
  const info = parseInfo(printed.info);
  const feedback =
    (own?.ok === true ? own.value : null) ?? code.value.feedback ?? (info.ok ? info.value.feedback : null);
  return { element, feedback };
}

function toldOf(given: z.infer<typeof told> | null | undefined): { readonly told?: Told } {
  if (given == null) return {};
  return {
    told: {
      ...(given.credited == null ? {} : { credited: given.credited }),
      ...(given.notCredited == null ? {} : { notCredited: given.notCredited }),
      ...(given.counted == null ? {} : { counted: { min: given.counted.min, max: given.counted.max } }),
    },
  };
}
