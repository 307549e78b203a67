import type { Element, JumpElement } from '../../notation/index.ts';
import type { SlotRule, SpinKindRule } from '../../rulebook/index.ts';
import { isUnit, spinCharacter, type Inventory } from '../../scoring/index.ts';
import { readPlannedElements } from '../planned.ts';
import type { SegmentRules } from '../segment-rules.ts';

const KINDS: Readonly<Record<SpinKindRule['kind'], string>> = {
  combination: 'a spin combination',
  flying: 'a flying spin of one position',
  'one-position': 'a spin of one position',
  'layback-or-one-position': 'a layback spin or a spin of one position',
};

const FORMS = {
  ChSq: 'choreographic sequence',
  ChSp: 'choreographic spin',
  ChSt: 'choreographic step sequence',
} as const;

const asks = (max: number | null, min: number | null): boolean => (max ?? 0) > 0 || (min ?? 0) > 0;

function jumpsMissing(jumps: readonly JumpElement[], { content }: SegmentRules, form: string): readonly string[] {
  const axel = jumps.some((element) => element.jumps.some((jump) => jump.name === 'A' && jump.turns >= 1));
  const max = content.jumpElements.max ?? 0;
  return [
    ...(content.axelRequired === true && !axel ? ['needs an Axel-type jump'] : []),
    ...(content.slots ?? []).flatMap((slot) => (jumps.some((jump) => fits(jump, slot)) ? [] : [slotText(slot)])),
    ...(content.slots === null && jumps.length < max
      ? [`${jumps.length} jump elements in the ${form}; ${max} may be skated`]
      : []),
  ];
}

function fits(element: JumpElement, slot: SlotRule): boolean {
  const [first, second] = element.jumps;
  if (first === undefined) return false;
  if (slot.slot !== 'combination') {
    const named = slot.names === null ? first.name !== 'A' : slot.names.includes(first.name);
    return !isUnit(element) && named && slot.turns.includes(first.turns);
  }
  if (!isUnit(element) || second === undefined) return false;
  return (
    slot.pairs === null ||
    slot.pairs.some(([a, b]) => (a === first.turns && b === second.turns) || (b === first.turns && a === second.turns))
  );
}

function slotText({ slot, turns, names }: SlotRule): string {
  if (slot === 'combination') return 'needs a combination of the turns that the segment asks';
  const list = turns.map((t) => ['', 'single', 'double', 'triple', 'quadruple'][t] ?? `${t} turns`).join(' or ');
  if (slot === 'axel') return `needs a ${list} Axel`;
  return `needs a ${list} jump alone${names === null ? '' : ` (${names.join(', ')})`}`;
}

function spinsMissing(elements: readonly Element[], { content }: SegmentRules, form: string): readonly string[] {
  const codes = elements.flatMap((e) => (e.kind === 'spin' ? [spinCharacter(e)] : []));
  const wanted = content.spins.max ?? 0;
  return [
    ...content.spins.kinds.flatMap(({ kind, codes: fitting }) =>
      codes.some((code) => fitting.includes(code)) ? [] : [`needs ${KINDS[kind]} (${fitting.join(', ')})`],
    ),
    ...(codes.length < wanted ? [`${codes.length} spins in the ${form}; ${wanted} are skated`] : []),
  ];
}

/** What a segment asks that an inventory does not hold, in plain words; unknown rules ask nothing. */
export function missingFrom(
  inventory: Inventory,
  rules: SegmentRules,
  form: 'inventory' | 'layout',
): readonly string[] {
  const read = readPlannedElements(inventory, rules);
  if (!read.ok) return [];
  const elements = read.value.map((one) => one.element);
  const jumps = elements.flatMap((e) => (e.kind === 'jump' ? [e] : []));
  const { steps, choreo } = rules.content;
  const forms = elements.flatMap((e) => (e.kind === 'choreo' ? [e.form] : []));
  return [
    ...jumpsMissing(jumps, rules, form),
    ...spinsMissing(elements, rules, form),
    ...(asks(steps.max, steps.min) && !elements.some((e) => e.kind === 'steps')
      ? [`no step sequence in the ${form}`]
      : []),
    ...(asks(choreo.max, choreo.min)
      ? choreo.forms.flatMap((one) => (forms.includes(one) ? [] : [`no ${FORMS[one]} (${one}) in the ${form}`]))
      : []),
  ];
}
