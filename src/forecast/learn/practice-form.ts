import { z } from 'zod';
import { fail, ok, parseCode, type Result } from '../../notation/index.ts';
import { checkForm, problemOf } from '../../scoring/index.ts';
import type { LoggedRunThrough } from './practice.ts';

const text = (what: string) =>
  z
    .string({ error: what })
    .min(1, { error: what })
    .max(60, { error: `${what}, shorter` });

/** The form of a logged run-through; fields it does not name are allowed and ignored. */
const runThroughForm = z.object(
  {
    at: z.iso.date({ error: 'a date such as 2023-10-14' }).or(z.iso.datetime({ offset: true })),
    elements: z.array(text('an element code'), { error: 'the codes as planned' }).min(1).max(40),
    exceptions: z
      .array(
        z.object(
          {
            no: z.int({ error: 'the place of an element, from 1' }).min(1),
            what: text('what was other than planned, such as "opened"'),
          },
          { error: 'an exception with no and what' },
        ),
      )
      .max(40)
      .nullish(),
  },
  { error: 'a run-through with at, elements and exceptions' },
);

/**
 * Reads a run-through: `{"at":"2023-10-14","elements":["3F+2T",…],"exceptions":[{"no":1,"what":"opened"}]}`.
 * An element that the plan does not have, or a code that cannot be read, is a located problem.
 */
export function readRunThrough(value: unknown): Result<LoggedRunThrough> {
  const checked = checkForm(runThroughForm, value, 'forecast.run-through');
  if (!checked.ok) return checked;
  const { at, elements, exceptions } = checked.value;
  for (const [i, code] of elements.entries()) {
    const parsed = parseCode(code);
    if (!parsed.ok) return fail({ ...parsed.error, at: `elements[${i}]` });
  }
  const beyond = (exceptions ?? []).findIndex(({ no }) => no > elements.length);
  if (beyond >= 0) {
    const expected = `a place from 1 to ${elements.length}`;
    return fail(problemOf(['exceptions', beyond, 'no'], value, expected, 'forecast.run-through'));
  }
  return ok({ at, elements, exceptions: exceptions ?? [] });
}
