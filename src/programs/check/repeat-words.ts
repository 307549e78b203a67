import type { ContentRules, RepeatRules } from '../../rulebook/index.ts';
import { kindOf } from '../../scoring/index.ts';
import { capital, many } from './numbers.ts';
import type { CheckFacts } from './types.ts';

const TURNS = ['no', 'single', 'double', 'triple', 'quadruple', 'quintuple'];

/** From 2.5 turns: the double Axel and jumps of three turns and more. */
function highJumps(from: number): string {
  const whole = `jumps of ${many(Math.ceil(from), 'turn', 'turns')} and more`;
  return Number.isInteger(from) ? whole : `the ${TURNS[Math.floor(from)] ?? Math.floor(from)} Axel and ${whole}`;
}

const kinds = (n: number): string => many(n, 'kind', 'kinds');

/** One limit in words, by its key in the rulebook. A limit that is not set has none. */
const LIMITS: readonly (readonly [key: keyof RepeatRules, says: (n: number, rules: RepeatRules) => string])[] = [
  ['maxSame', (n) => `the same jump at most ${many(n, 'time', 'times')}`],
  ['highKindsTwice', (n, { highTurnsFrom }) => `of ${highJumps(highTurnsFrom)} ${kinds(n)} may come twice`],
  ['quadKindsTwice', (n) => `of quads ${kinds(n)} may come twice`],
  ['lowKindsTwice', (n) => `of doubles ${kinds(n)} may come twice`],
  ['singleKindsTwice', (n) => `of singles ${kinds(n)} may come twice`],
  ['familiesTwice', (n) => `${many(n, 'type', 'types')} of jump may be repeated, whatever the turns`],
  [
    'maxPerFamily',
    (n) => `jumps of one type (all toe loops, all Lutzes) at most ${many(n, 'time', 'times')}, whatever the turns`,
  ],
];

/**
 * The limits on repeats in words.
 *
 * @param paths of the limits that a layout breaks (`repeats.maxPerFamily`): only these are said; none: all.
 */
export function repeatWords({ repeats }: ContentRules, paths: readonly string[]): string {
  if (repeats === null) return 'How often a jump may be repeated is not established';
  const broken = LIMITS.filter(([key]) => paths.includes(`repeats.${key}`));
  const parts = (broken.length > 0 ? broken : LIMITS).flatMap(([key, says]) => {
    const limit = repeats[key];
    return limit === null ? [] : [says(limit, repeats)];
  });
  return parts.length === 0 ? 'No limit on repeats is established' : capital(parts.join('; '));
}

const listedJumps = (facts: CheckFacts) =>
  facts.planned
    .flatMap((p) => (p.element.kind === 'jump' ? p.element.jumps : []))
    .filter((jump) => jump.name !== 'Eu' && jump.turns >= 1);

const anyTwice = (names: readonly string[]): boolean => new Set(names).size < names.length;

/** A kind of jump (name and turns) stands in the layout more than once. */
export const repeatsKind = (facts: CheckFacts): boolean => anyTwice(listedJumps(facts).map(kindOf));

/** The layout holds something that the limits count: a kind twice or, where types are limited, a type. */
export function repeatsSomething(facts: CheckFacts): boolean {
  const { repeats } = facts.rules.content;
  const ofTypes = repeats !== null && (repeats.familiesTwice !== null || repeats.maxPerFamily !== null);
  return repeatsKind(facts) || (ofTypes && anyTwice(listedJumps(facts).map((jump) => jump.name)));
}
