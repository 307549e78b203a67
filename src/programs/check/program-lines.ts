import type { ContentRules } from '../../rulebook/index.ts';
import { isUnit, type ProgramRule } from '../../scoring/index.ts';
import type { Planned } from '../planned.ts';
import { capital, many, number } from './numbers.ts';
import { repeatsKind, repeatsSomething, repeatWords } from './repeat-words.ts';
import type { CheckFacts } from './types.ts';

/** How one program-wide rule is shown: where it stands, whether it is known, what it says. */
export interface ProgramLine {
  readonly rule: ProgramRule;
  /** Path of its citation inside the content rules (or `values.…`). */
  readonly path: string;
  /** The layout holds something that the rule speaks of. */
  readonly concerns: (facts: CheckFacts) => boolean;
  /** The rule's value is established. */
  readonly known: (content: ContentRules, facts: CheckFacts) => boolean;
  /** The rule in plain words, with what is planned; `broken`: paths of the limits that the layout breaks. */
  readonly says: (facts: CheckFacts, broken: readonly string[]) => string;
}

const jumps = (facts: CheckFacts): readonly Planned[] => facts.planned.filter((p) => p.element.kind === 'jump');
const units = (facts: CheckFacts): readonly Planned[] =>
  facts.planned.filter((p) => p.element.kind === 'jump' && isUnit(p.element));
const ofKind = (facts: CheckFacts, kind: Planned['element']['kind']): readonly Planned[] =>
  facts.planned.filter((p) => p.element.kind === kind);

const allJumps = (facts: CheckFacts) =>
  facts.planned.flatMap((p) => (p.element.kind === 'jump' ? p.element.jumps : []));

const isSequence = (p: Planned): boolean =>
  p.element.kind === 'jump' && p.element.markers.some((m) => m.marker === 'SEQ');

function between(min: number | null, max: number | null, one: string, more: string): string {
  if (max === null) return `How many ${more} may stand in this program is not established`;
  if (max === 0) return `No ${one} in this program`;
  if (min !== null && min === max) return `${capital(many(max, one, more))}, neither more nor fewer`;
  const atLeast = min !== null && min > 0 ? ` and at least ${number(min)}` : '';
  return `At most ${many(max, one, more)}${atLeast}`;
}

/** Of lengths 3, 2, 2: one of three jumps, the others of two. */
function lengthWords(lengths: readonly number[]): string {
  const sorted = lengths.toSorted((a, b) => b - a);
  const [longest, shortest] = [sorted.at(0) ?? 0, sorted.at(-1) ?? 0];
  const jumps = (n: number): string => many(n, 'jump', 'jumps');
  if (longest === shortest) return `Combinations and sequences of at most ${jumps(longest)}`;
  const groups = [...new Set(sorted)].map((n) => ({ n, times: sorted.filter((one) => one === n).length }));
  const parts = groups.map(({ n, times }, i) =>
    i === 0
      ? `${number(times)} of at most ${jumps(n)}`
      : `${i < groups.length - 1 ? number(times) : times === 1 ? 'the other' : 'the others'} of ${number(n)}`,
  );
  return `Combinations and sequences: ${parts.join(', ')}`;
}

const unitLimits = ({ maxUnits, maxCombinations, maxSequences }: ContentRules): string => {
  const parts = [
    ...(maxUnits === null
      ? []
      : [`${many(maxUnits, 'combination or sequence', 'combinations and sequences')} together`]),
    ...(maxCombinations === null || maxCombinations >= (maxUnits ?? Infinity)
      ? []
      : [many(maxCombinations, 'combination', 'combinations')]),
    ...(maxSequences === null || maxSequences >= (maxUnits ?? Infinity)
      ? []
      : [many(maxSequences, 'sequence', 'sequences')]),
  ];
  return `At most ${parts.join(', ')}`;
};

const slotWords = ({ slots }: ContentRules): string =>
  slots === null
    ? 'The jump slots of this short program are not established'
    : 'An Axel-type jump, a solo jump and a combination, each of the prescribed kind';

/** The rules of the automaton in the order a coach asks them. */
export const PROGRAM_LINES: readonly ProgramLine[] = [
  {
    rule: 'jump-elements',
    path: 'jumpElements',
    concerns: (f) => jumps(f).length > 0 || (f.rules.content.jumpElements.min ?? 0) > 0,
    known: (c) => c.jumpElements.max !== null,
    says: (f) => {
      const { min, max } = f.rules.content.jumpElements;
      return `${between(min, max, 'jump element', 'jump elements')}; planned: ${jumps(f).length}`;
    },
  },
  {
    rule: 'axel',
    path: 'axelRequired',
    concerns: (f) => f.rules.content.slots === null && f.rules.content.axelRequired !== false,
    known: (c) => c.axelRequired !== null,
    says: () => 'At least one jump element has an Axel-type jump; without it one place for a jump element stays closed',
  },
  {
    rule: 'slots',
    path: 'slots',
    concerns: (f) => f.rules.chosen.segment === 'short',
    known: (c) => c.slots !== null,
    says: (f) => slotWords(f.rules.content),
  },
  {
    rule: 'slot-repeat',
    path: 'slots',
    concerns: (f) => f.rules.chosen.segment === 'short',
    known: (c) => c.slots !== null,
    says: () => 'No jump stands in two of the three jump elements; inside the combination the same jump may come twice',
  },
  {
    rule: 'combination-missing',
    path: 'slots',
    concerns: (f) => f.rules.content.slots !== null,
    known: (c) => c.slots !== null,
    says: () =>
      'The short program has a combination; without it the second solo jump is marked +COMBO at the lowest grade',
  },
  {
    rule: 'units',
    path: 'maxUnits',
    concerns: (f) => units(f).length > 0 && f.rules.content.maxUnits !== 0,
    known: (c) => c.maxUnits !== null || c.maxCombinations !== null,
    says: (f) => `${unitLimits(f.rules.content)}; planned: ${units(f).length}`,
  },
  {
    rule: 'combinations',
    path: 'maxCombinations',
    concerns: (f) =>
      (f.rules.content.maxCombinations ?? Infinity) < (f.rules.content.maxUnits ?? Infinity) &&
      units(f).some((p) => !isSequence(p)),
    known: () => true,
    says: (f) => `At most ${many(f.rules.content.maxCombinations, 'combination', 'combinations')}`,
  },
  {
    rule: 'sequences',
    path: 'maxSequences',
    concerns: (f) =>
      (f.rules.content.maxSequences ?? Infinity) < (f.rules.content.maxUnits ?? Infinity) && units(f).some(isSequence),
    known: () => true,
    says: (f) => between(null, f.rules.content.maxSequences, 'jump sequence', 'jump sequences'),
  },
  {
    rule: 'jumps-per-unit',
    path: 'jumpsPerUnit',
    concerns: (f) => units(f).length > 0,
    known: (c, f) => c.jumpsPerUnit !== null && (f.rules.chosen.values.values.euler.counts !== null || !hasEuler(f)),
    says: (f) => {
      const lengths = f.rules.content.jumpsPerUnit;
      return lengths === null ? 'How many jumps a combination may have is not established' : lengthWords(lengths);
    },
  },
  {
    rule: 'sequence-axel',
    path: 'values.sequence.axelAfterFirst',
    concerns: (f) => units(f).some(isSequence) && f.rules.chosen.values.values.sequence.axelAfterFirst,
    known: () => true,
    says: () => 'In a sequence the jump after the step is an Axel type; otherwise the first jump alone counts',
  },
  {
    rule: 'euler',
    path: 'values.euler',
    concerns: hasEuler,
    known: (_, f) => f.rules.chosen.values.values.euler.counts !== null,
    says: (f) => {
      const { euler } = f.rules.chosen.values.values;
      const times = euler.maxPerProgram === null ? '' : `, at most ${number(euler.maxPerProgram)} in a program`;
      return `The Euler counts only between two listed jumps and may stand in: ${euler.segments.join(' and ')} program${times}`;
    },
  },
  {
    rule: 'max-turns',
    path: 'maxTurns',
    concerns: (f) =>
      jumps(f).length > 0 && (f.rules.content.maxTurns !== null || f.rules.content.maxAxelTurns !== null),
    known: () => true,
    says: (f) => {
      const { maxTurns, maxAxelTurns } = f.rules.content;
      const axel =
        maxAxelTurns === null ? '' : `${maxTurns === null ? 'A' : ', a'}n Axel at most ${number(maxAxelTurns)}`;
      return `${maxTurns === null ? '' : `Jumps of at most ${many(maxTurns, 'turn', 'turns')}`}${axel}`;
    },
  },
  {
    rule: 'repeats',
    path: 'repeats',
    concerns: (f) => f.rules.content.slots === null && repeatsSomething(f),
    known: (c) => c.repeats !== null,
    says: (f, broken) => repeatWords(f.rules.content, broken),
  },
  {
    rule: 'repeat-alone',
    path: 'repeats.repFromTurns',
    concerns: (f) => f.rules.content.repeats?.repFromTurns != null && repeatsKind(f),
    known: () => true,
    says: (f) =>
      `A jump done twice stands in a combination or sequence once; both alone, the second keeps ${f.rules.chosen.values.values.repeatPercent} % of its base value (+REP)`,
  },
  {
    rule: 'spins',
    path: 'spins.max',
    concerns: (f) => ofKind(f, 'spin').length > 0 || (f.rules.content.spins.min ?? 0) > 0,
    known: (c) => c.spins.max !== null,
    says: (f) => {
      const { min, max } = f.rules.content.spins;
      return `${between(min, max, 'spin', 'spins')}; planned: ${ofKind(f, 'spin').length}`;
    },
  },
  {
    rule: 'spin-kinds',
    path: 'spins.kinds',
    concerns: (f) => ofKind(f, 'spin').length > 0 && f.rules.content.spins.kinds.length > 0,
    known: () => true,
    says: (f) => `Spins of these kinds, one of each: ${f.rules.content.spins.kinds.map((k) => k.kind).join(', ')}`,
  },
  {
    rule: 'spin-codes',
    path: 'spins.sameCodeForbidden',
    concerns: (f) => ofKind(f, 'spin').length > 1 && f.rules.content.spins.sameCodeForbidden !== false,
    known: (c) => c.spins.sameCodeForbidden !== null,
    says: () => 'Every spin has a character (code) of its own',
  },
  {
    rule: 'steps',
    path: 'steps',
    concerns: (f) => ofKind(f, 'steps').length > 0 || (f.rules.content.steps.min ?? 0) > 0,
    known: (c) => c.steps.max !== null,
    says: (f) => between(f.rules.content.steps.min, f.rules.content.steps.max, 'step sequence', 'step sequences'),
  },
  {
    rule: 'choreo',
    path: 'choreo',
    concerns: (f) => ofKind(f, 'choreo').length > 0 || (f.rules.content.choreo.min ?? 0) > 0,
    known: (c) => c.choreo.max !== null,
    says: (f) => {
      const { min, max, forms } = f.rules.content.choreo;
      const which = forms.length === 0 ? '' : ` (${forms.join(' and ')})`;
      return `${between(min, max, 'choreographic element', 'choreographic elements')}${which}`;
    },
  },
];

function hasEuler(facts: CheckFacts): boolean {
  return allJumps(facts).some((jump) => jump.name === 'Eu');
}
