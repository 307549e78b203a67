import * as z from 'zod';

import { fail, ok, parseCode, type Problem, type Result, type SpinElement } from '../notation/index.ts';
import { SPIN_FEATURES } from '../rulebook/index.ts';
import { checkForm, heading, problemOf, readHeading } from '../scoring/index.ts';
import { creditField } from './step-form.ts';
import { FEET } from './turns.ts';
import {
  PART_POSITIONS,
  VARIATIONS,
  VARIATION_POSITIONS,
  isVariation,
  type PartPosition,
  type Spin,
  type SpinPart,
} from './spin.ts';

/** More parts and spins than any program has; a longer list is a mistake and is not computed. */
export const MAX_PARTS = 40;
export const MAX_SPINS = 20;
const MAX_REVOLUTIONS = 200;

const revolutions = z
  .number({ error: `revolutions from 0 to ${MAX_REVOLUTIONS}` })
  .min(0, { error: `revolutions from 0 to ${MAX_REVOLUTIONS}` })
  .max(MAX_REVOLUTIONS, { error: `revolutions from 0 to ${MAX_REVOLUTIONS}` });
const variation = z.enum(VARIATIONS, { error: `a variation (${VARIATIONS.join(', ')}) or null` });
const feature = z.enum(SPIN_FEATURES, { error: `a feature: ${SPIN_FEATURES.join(', ')}` });
const usedName = z.union([variation, feature], { error: 'a variation or feature spent earlier in the program' });

const part = z.looseObject(
  {
    foot: z.enum(FEET, { error: 'L or R' }),
    position: z.enum(PART_POSITIONS, { error: `a position: ${PART_POSITIONS.join(', ')}` }),
    variation: variation.nullish(),
    revolutions,
    features: z.array(feature, { error: 'a list of features' }).nullish(),
    credit: creditField.nullish(),
  },
  { error: 'a part with foot, position and revolutions' },
);
type PartForm = z.infer<typeof part>;

const expectedParts = `a list of 1 to ${MAX_PARTS} parts`;
const spinFields = {
  code: z.string({ error: 'a spin code without level, such as CCoSp' }),
  used: z.array(usedName, { error: 'a list of variations and features' }).nullish(),
  withoutJump: z.boolean({ error: 'true or false' }).nullish(),
  parts: z
    .array(part, { error: expectedParts })
    .min(1, { error: expectedParts })
    .max(MAX_PARTS, { error: expectedParts }),
};
const spinObject = { error: 'a spin as an object with code and parts' };

/** The JSON (or YAML) form of one planned spin. */
export const spinForm = z
  .looseObject({ ...heading, kind: z.literal('spin', { error: 'spin' }), ...spinFields }, spinObject)
  .meta({ title: 'Spin', description: 'A planned spin: its parts in the order skated.' });

const expectedSpins = `a list of 1 to ${MAX_SPINS} spins`;
/** All spins of a program in skating order: features are used up from one to the next. */
export const spinsForm = z
  .looseObject(
    {
      ...heading,
      kind: z.literal('spins', { error: 'spins' }),
      spins: z
        .array(z.looseObject({ ...heading, ...spinFields }, spinObject), { error: expectedSpins })
        .min(1, { error: expectedSpins })
        .max(MAX_SPINS, { error: expectedSpins }),
    },
    { error: 'spins as an object' },
  )
  .meta({ title: 'Spins', description: 'The planned spins of a program in skating order.' });

/** A spin without its segment, which the chosen rules settle. */
export type SpinPlan = Omit<Spin, 'segment'>;

export interface SpinForm extends ReturnType<typeof readHeading> {
  readonly kind: 'spin';
  readonly spin: SpinPlan;
  readonly warnings: readonly string[];
}

export interface SpinsForm extends ReturnType<typeof readHeading> {
  readonly kind: 'spins';
  readonly spins: readonly SpinPlan[];
  readonly warnings: readonly string[];
}

/** Reads one spin; trouble is a located problem. */
export function readSpin(value: unknown): Result<SpinForm> {
  const checked = checkForm(spinForm, value, 'spin.form');
  if (!checked.ok) return checked;
  const spin = toSpin(checked.value, [], value);
  if (!spin.ok) return spin;
  return ok({ ...readHeading(checked.value), kind: 'spin', spin: spin.value, warnings: [] });
}

/** Reads the spins of a program; trouble is a located problem. */
export function readSpins(value: unknown): Result<SpinsForm> {
  const checked = checkForm(spinsForm, value, 'spins.form');
  if (!checked.ok) return checked;
  const spins: SpinPlan[] = [];
  for (const [index, form] of checked.value.spins.entries()) {
    const spin = toSpin(form, ['spins', index], value);
    if (!spin.ok) return spin;
    spins.push(spin.value);
  }
  return ok({ ...readHeading(checked.value), kind: 'spins', spins, warnings: [] });
}

type SpinFields = z.infer<z.ZodObject<typeof spinFields>>;
type Path = readonly PropertyKey[];

function toSpin(form: SpinFields, path: Path, root: unknown): Result<SpinPlan> {
  const element = spinElement(form.code);
  if (element === null)
    return fail(problemOf([...path, 'code'], root, 'a spin code such as CCoSp, FSSp or LSp', 'spin.code'));
  const parts = form.parts.map(toPart);
  const trouble = form.parts
    .map((one, index) => partProblem(one, element, parts[0], [...path, 'parts', index], root))
    .find((problem) => problem !== null);
  if (trouble) return fail(trouble);
  const { flying, changeFoot, position } = element;
  const code = `${flying ? 'F' : ''}${changeFoot ? 'C' : ''}${position}Sp`;
  return ok({
    code,
    flying,
    changeFoot,
    position,
    used: form.used ?? [],
    parts,
    withoutJump: form.withoutJump ?? false,
  });
}

function spinElement(code: string): SpinElement | null {
  const parsed = parseCode(code);
  return parsed.ok && parsed.value.element.kind === 'spin' ? parsed.value.element : null;
}

const toPart = (form: PartForm): SpinPart => ({
  foot: form.foot,
  position: form.position,
  variation: form.variation ?? null,
  revolutions: form.revolutions,
  features: form.features ?? [],
  credit: form.credit ?? 1,
});

/** What cannot be, whatever the season: a variation or feature on the wrong position, foot or kind of spin. */
function partProblem(
  form: PartForm,
  spin: SpinElement,
  first: SpinPart | undefined,
  path: Path,
  root: unknown,
): Problem | null {
  const at = (field: string, expected: string) => problemOf([...path, field], root, expected, 'spin.position');
  if (!spin.changeFoot && first !== undefined && form.foot !== first.foot)
    return at('foot', `${first.foot}, or a code with a change of foot`);
  if (form.variation != null && isVariation(form.variation)) {
    const fitting: readonly PartPosition[] = VARIATION_POSITIONS[form.variation];
    if (!fitting.includes(form.position)) return at('variation', `a variation of the ${form.position} position`);
  }
  for (const [index, name] of (form.features ?? []).entries()) {
    const expected = misplaced(name, form, spin);
    if (expected !== null) return problemOf([...path, 'features', index], root, expected, 'spin.position');
  }
  return null;
}

/** What a feature would need to make sense here; null where it does. */
function misplaced(name: (typeof SPIN_FEATURES)[number], form: PartForm, spin: SpinElement): string | null {
  if (name === 'back-sideways' && form.position !== 'layback') return 'this feature on a layback position only';
  if (name === 'biellmann' && form.position !== 'layback' && form.position !== 'upright')
    return 'this feature on a layback or upright position only';
  if (name === 'difficult-flying-entry' && !spin.flying) return 'this feature in a flying spin only';
  const needsChange = name === 'change-of-foot-by-jump' || name === 'all-positions-second-foot';
  if (needsChange && !spin.changeFoot) return 'this feature in a spin with change of foot only';
  const needsBasic = name === 'change-of-edge' || name === 'increase-of-speed' || name === 'both-directions';
  return needsBasic && form.position === 'non-basic' ? 'this feature in a basic position only' : null;
}
