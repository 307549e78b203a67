import type { ProgramRule, ProgramState } from './types.ts';
import type { SpinKindRule } from '../../rulebook/index.ts';

/** Something that the whole program lacks. It costs nothing by itself: what is missing scores 0. */
export interface Missing {
  readonly rule: ProgramRule;
  /** Path inside `ContentRules`. */
  readonly path: string;
  readonly done: number;
  readonly required: number;
}

const short = (rule: ProgramRule, path: string, done: number, required: number | null): readonly Missing[] =>
  required !== null && done < required ? [{ rule, path, done, required }] : [];

/** Largest number of prescribed kinds that these spins can fill, one spin a kind. */
function kindsFilled(spins: readonly string[], kinds: readonly SpinKindRule[]): number {
  const [kind, ...others] = kinds;
  if (kind === undefined) return 0;
  const withKind = spins.flatMap((spin, i) =>
    kind.codes.includes(spin) ? [1 + kindsFilled([...spins.slice(0, i), ...spins.slice(i + 1)], others)] : [],
  );
  return Math.max(kindsFilled(spins, others), ...withKind);
}

function missingSlots(state: ProgramState): readonly Missing[] {
  const { slots } = state.rules.content;
  if (slots === null) return [];
  const { axel, alone, combination } = state.slots;
  const done = { axel: axel !== null ? 1 : 0, solo: Math.min(alone, 1), combination };
  return slots.flatMap((slot, i) => short('slots', `slots.${i}`, done[slot.slot], 1));
}

/** What the program lacks when its last element has been called. */
export function finish(state: ProgramState): readonly Missing[] {
  const { content } = state.rules;
  const forms = content.choreo.forms;
  const choreoDone = forms.map((form) => state.choreo[form] ?? 0);
  const kindsRequired = content.spins.min !== null && content.spins.min >= content.spins.kinds.length;
  return [
    ...short('jump-elements', 'jumpElements.min', state.jumpElements, content.jumpElements.min),
    ...(content.axelRequired === true && !state.axelDone ? short('axel', 'axelRequired', 0, 1) : []),
    ...missingSlots(state),
    ...short('spins', 'spins.min', state.spins.length, content.spins.min),
    ...(kindsRequired
      ? short('spin-kinds', 'spins.kinds', kindsFilled(state.spins, content.spins.kinds), content.spins.kinds.length)
      : []),
    ...short('steps', 'steps.min', state.steps, content.steps.min),
    ...short(
      'choreo',
      'choreo.min',
      choreoDone.reduce((sum, n) => sum + n, 0),
      content.choreo.min,
    ),
  ];
}
