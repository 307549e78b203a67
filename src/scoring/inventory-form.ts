import { z } from 'zod';

import { fail, ok, type Result } from '../notation/index.ts';
import { checkForm, finite, list, text } from './form-fields.ts';
import { codeProblem, layoutFields, toLayout } from './layout-form.ts';
import type { Layout } from './layout.ts';

/** What a skater can do: the entries of a layout in any number, and what a program must and may use. */
export interface Inventory extends Layout {
  /** `listed`: only listed combinations; `auto`: legal combinations are built from single jumps. */
  readonly combine: 'listed' | 'auto';
  readonly constraints: {
    readonly must: readonly string[];
    readonly never: readonly string[];
    /** Grades taken off in the second half, 0 or more. */
    readonly latePenalty: number;
  };
}

const codes = list(text, 1000, 'element codes');

/** The JSON (or YAML) form of an inventory; fields it does not name are allowed and ignored. */
export const inventoryForm = z
  .object(
    {
      ...layoutFields,
      combine: z.enum(['listed', 'auto'], { error: 'listed or auto' }).nullish(),
      constraints: z
        .object(
          {
            must: codes.nullish(),
            never: codes.nullish(),
            latePenalty: finite.min(0, { error: 'grades from 0' }).nullish(),
          },
          { error: 'constraints with must, never, latePenalty' },
        )
        .nullish(),
    },
    { error: 'an inventory as an object' },
  )
  .meta({ title: 'Inventory', description: 'What a skater can do, for the best layout.' });

/** Reads an inventory; `combine` is `listed` where absent. Trouble is a located problem. */
export function readInventory(value: unknown): Result<Inventory> {
  const checked = checkForm(inventoryForm, value, 'inventory.form');
  if (!checked.ok) return checked;
  const layout = toLayout(checked.value, value);
  if (!layout.ok) return layout;
  const { must, never, latePenalty } = checked.value.constraints ?? {};
  const trouble = firstProblem(must ?? [], 'must') ?? firstProblem(never ?? [], 'never');
  if (trouble) return fail(trouble);
  return ok({
    ...layout.value,
    combine: checked.value.combine ?? 'listed',
    constraints: { must: must ?? [], never: never ?? [], latePenalty: latePenalty ?? 0 },
  });
}

const firstProblem = (list: readonly string[], field: string) =>
  list.map((code, i) => codeProblem(code, ['constraints', field, i])).find((problem) => problem !== null);
