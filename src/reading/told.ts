import { z } from 'zod';
import { ok, type Result } from '../notation/index.ts';
import { checkForm, type Protocol } from '../scoring/index.ts';
import type { ToldByPanel } from './types.ts';

const MOST_TURNS = 12;
const turns = z
  .int({ error: `a number of credited turns from 0 to ${MOST_TURNS}` })
  .min(0, { error: `a number of credited turns from 0 to ${MOST_TURNS}` })
  .max(MOST_TURNS, { error: `a number of credited turns from 0 to ${MOST_TURNS}` });

const toldElement = z.looseObject(
  {
    no: z.int({ error: 'the printed number of an element' }).min(1, { error: 'the printed number of an element' }),
    text: z.string({ error: 'words' }).max(4000, { error: 'at most 4000 characters' }).nullish(),
    turns: z
      .union([
        turns,
        z
          .looseObject({ min: turns, max: turns })
          .refine((range) => range.min <= range.max, { error: 'min not above max' }),
      ])
      .nullish(),
    missingPosition: z.enum(['camel', 'sit', 'upright'], { error: 'camel, sit or upright' }).nullish(),
  },
  { error: 'what was told about one element: no, and turns, missingPosition or text' },
);

/** What the panel told about one protocol: `{ id?, skater?, segment?, told: [{ no, turns?, missingPosition?, text? }] }`. */
export const toldForm = z.looseObject({
  id: z.string({ error: 'the id of a protocol' }).nullish(),
  skater: z.string({ error: 'a name' }).nullish(),
  segment: z.enum(['short', 'free'], { error: 'short or free' }).nullish(),
  told: z.array(toldElement, { error: 'a list of what was told' }).max(100, { error: 'at most 100 entries' }),
});

/** What was told, and about which protocols: where it says nothing of them, about all. */
export interface ToldSheet {
  readonly id: string | null;
  readonly skater: string | null;
  readonly segment: 'short' | 'free' | null;
  readonly told: readonly ToldByPanel[];
}

/** Reads what the panel told; a value that does not fit is a located problem. */
export function readTold(value: unknown): Result<ToldSheet> {
  const form = checkForm(toldForm, value, 'told');
  if (!form.ok) return form;
  const { id, skater, segment, told } = form.value;
  return ok({
    id: id ?? null,
    skater: skater ?? null,
    segment: segment ?? null,
    told: told.map((one) => ({
      no: one.no,
      text: one.text ?? '',
      turns: one.turns ?? null,
      missingPosition: one.missingPosition ?? null,
    })),
  });
}

/** Everything that was told about a protocol; whatever both sides say of themselves must agree. */
export const toldOf = (sheets: readonly ToldSheet[], protocol: Protocol): ToldByPanel[] =>
  sheets
    .filter(
      (sheet) =>
        agrees(sheet.id, protocol.id) &&
        agrees(sheet.skater, protocol.skater) &&
        agrees(sheet.segment, protocol.segment),
    )
    .flatMap((sheet) => sheet.told);

/** What a sheet names must be named by the protocol. */
const agrees = (wanted: string | null, own: string | null): boolean =>
  wanted === null || (own !== null && wanted.trim().toLowerCase() === own.trim().toLowerCase());
