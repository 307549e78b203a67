import type { ChosenRules, Hundredths } from '../../rulebook/index.ts';
import type { Protocol } from '../protocol.ts';
import type { Finding } from './finding.ts';
import { followed, type WrongPart } from './follows.ts';
import { pcsSlip, tesSlip, totalSlip } from './known-slips.ts';
import { ownComponents, ownTotal, type OwnValue } from './own-values.ts';
import type { Rows } from './panel-way.ts';
import { findingOf, partOf, type Wrong } from './wrong-figure.ts';

export interface Sums {
  readonly tes: Hundredths | null;
  readonly pcs: Hundredths | null;
  readonly deductions: Hundredths | null;
  readonly total: Hundredths | null;
}

interface Parts {
  readonly elements: readonly WrongPart[];
  readonly components: readonly WrongPart[];
}

/** Element score, component total and segment total. */
export function sumFigures(
  protocol: Protocol,
  rows: Rows,
  sums: Sums,
  rules: ChosenRules,
  parts: Parts,
): readonly Finding[] {
  const tes = tesFigure(protocol, rows, sums, parts.elements);
  const pcs = pcsFigure(protocol, rows, sums, rules, parts.components);
  const own = [tes, pcs].filter((one) => one !== null);
  const total = totalFigure(protocol, sums, rules, own.map(partOf), ownTotal(protocol, rows, rules));
  return [...own, ...(total === null ? [] : [total])].map(findingOf);
}

function tesFigure(protocol: Protocol, rows: Rows, sums: Sums, parts: readonly WrongPart[]): Wrong | null {
  const { tes: published } = protocol;
  const { tes: expected } = sums;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: 'tes',
    published,
    expected,
    what: 'total element score',
    from: 'the elements add up to',
    follows: followed(published - expected, parts),
    slip: tesSlip(
      published,
      expected,
      rows.elements.map((row) => row.score),
    ),
  };
}

function pcsFigure(
  protocol: Protocol,
  rows: Rows,
  sums: Sums,
  rules: ChosenRules,
  parts: readonly WrongPart[],
): Wrong | null {
  const { pcs: published } = protocol;
  const { pcs: expected } = sums;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: 'pcs',
    published,
    expected,
    what: 'total component score',
    from: 'the factored components add up to',
    follows: followed(published - expected, parts),
    slip: pcsSlip(published, expected, rows.components, otherFactors(rules)),
    own: ownComponents(rows, rules),
  };
}

/** Factors of the other segment and the other sex, which a wrong setting would apply. */
function otherFactors(rules: ChosenRules): readonly Hundredths[] {
  const factors = (['women', 'men'] as const).flatMap((sex) =>
    (['short', 'free'] as const).map((segment) => rules.values.components(`${rules.ageGroup} ${sex}`, segment).factor),
  );
  return [...new Set(factors.filter((factor) => factor !== null))];
}

function totalFigure(
  protocol: Protocol,
  sums: Sums,
  rules: ChosenRules,
  parts: readonly WrongPart[],
  own: OwnValue,
): Wrong | null {
  const { total: published } = protocol;
  const { total: expected, tes, pcs } = sums;
  if (published === null || expected === null || published === expected) return null;
  const follows = followed(published - expected, parts);
  const bonus = follows === null && own === null && isPossibleBonus(protocol, published - expected, rules);
  return {
    at: 'total',
    published,
    expected,
    what: 'total segment score',
    own,
    from: 'element score, component score and deductions make',
    follows,
    kind: bonus ? 'slip' : 'calculation',
    slip: bonus
      ? 'possible bonus'
      : totalSlip(published, {
          tes: tes ?? 0,
          pcs: pcs ?? 0,
          bonus: protocol.bonus ?? 0,
          deductions: sums.deductions ?? 0,
        }),
  };
}

/** Bonus points come in whole or half points. */
const HALF_POINT = 50;

/** Points too many, whole or half, where the rulebook knows of bonus points or does not know. */
function isPossibleBonus(protocol: Protocol, surplus: Hundredths, rules: ChosenRules): boolean {
  const known = rules.content.content(rules.category, rules.segment)?.bonusPoints ?? null;
  return protocol.bonus === null && known !== false && surplus > 0 && surplus % HALF_POINT === 0;
}
