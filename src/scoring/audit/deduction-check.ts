import type { ChosenRules, DeductionKind, DeductionRules, Hundredths } from '../../rulebook/index.ts';
import { toPoints } from '../form-fields.ts';
import type { DeductionItem, Protocol } from '../protocol.ts';
import { fallPoints } from '../segment.ts';
import { ownAt, ownWords, type OwnValue } from './own-values.ts';
import type { CalledElement } from './called.ts';
import type { Finding } from './finding.ts';

const WORDS: readonly (readonly [RegExp, DeductionKind])[] = [
  [/\bfalls?\b/i, 'fall'],
  [/costume|prop\b/i, 'costume'],
  [/illegal/i, 'illegal'],
  [/interrupt/i, 'interruption'],
  [/late|start/i, 'late-start'],
  [/music|vocal/i, 'music'],
  [/time|duration|long|short/i, 'time'],
];

/** The kind of deduction that a printed reason names; `other` where no known word occurs. */
export const deductionKind = (reason: string): DeductionKind =>
  WORDS.find(([words]) => words.test(reason))?.[1] ?? 'other';

/** Deduction lines against count times scale, and falls marked on the elements against the deduction. */
export function deductionFindings(
  protocol: Protocol,
  called: readonly CalledElement[],
  rules: ChosenRules,
): readonly Finding[] {
  const scale = rules.deductions.deductions(rules.category, rules.segment);
  const items = protocol.deductions?.items ?? [];
  const ownOf = (kind: DeductionKind): OwnValue =>
    ownAt(rules.deductions, `deductions.${rules.category}.${kind === 'fall' ? 'falls' : `amounts.${kind}`}`);
  const onOwn = (finding: Finding, own: OwnValue): Finding =>
    own === null ? finding : { ...finding, message: `${finding.message}${ownWords(own)}`, ownValue: own };
  return [
    ...items.flatMap((item, i) => {
      const finding = itemFinding(item, i, scale);
      return finding === null ? [] : [onOwn(finding, ownOf(deductionKind(item.reason)))];
    }),
    ...fallFindings(protocol, called, scale).map((finding) =>
      // More or fewer falls than are marked do not rest on the scale.
      finding.at.endsWith('.count') ? finding : onOwn(finding, ownOf('fall')),
    ),
  ];
}

function itemFinding(item: DeductionItem, i: number, scale: DeductionRules): Finding | null {
  const expected = itemPoints(item, scale);
  if (expected === null || expected === item.points) return null;
  return {
    kind: 'calculation',
    at: `deductions[${i}].points`,
    published: toPoints(item.points),
    expected: toPoints(expected),
    message: `The deduction for “${item.reason}” is printed as ${points(item.points)}; ${item.count ?? 0} by the season's scale make ${points(expected)}.`,
  };
}

/** What a line deducts by the scale; null where the count or a fixed amount is not known. */
function itemPoints(item: DeductionItem, scale: DeductionRules): Hundredths | null {
  const kind = deductionKind(item.reason);
  if (item.count === null) return null;
  if (kind === 'fall') return fallPoints(scale, item.count);
  // Time goes by started seconds and interruptions by their length: no count times an amount.
  const amount = kind === 'time' || kind === 'interruption' || kind === 'other' ? undefined : scale.amounts[kind];
  return amount === undefined ? null : amount * item.count;
}

/** Many sheets do not mark falls on the elements at all, so that none marked says nothing. */
function fallFindings(protocol: Protocol, called: readonly CalledElement[], scale: DeductionRules): readonly Finding[] {
  const falls = called.filter((element) => element.fall).length;
  const needed = fallPoints(scale, falls);
  const { deductions } = protocol;
  if (falls === 0 || needed === null || needed === 0) return [];
  if (deductions === null && !addsUpWithout(protocol)) return [];
  const printed =
    deductions === null
      ? { at: 'deductions', published: null, expected: toPoints(needed) }
      : deductions.items === null
        ? ofTheSum(deductions.total, needed, scale)
        : ofTheItems(deductions.items, falls, needed);
  if (printed === null) return [];
  const marks = `${falls} ${falls === 1 ? 'mark' : 'marks'} of a fall`;
  return [
    {
      kind: 'slip',
      ...printed,
      message: `The elements carry ${marks}; by the season's scale that deducts ${points(needed)}. ${deductions === null ? 'No deduction is printed, and the total has none in it.' : `The printed deduction is ${points(deductions.total)} in all.`}`,
      slip: 'falls against the deduction',
    },
  ];
}

/** A sheet without deductions may leave them out of what was copied; one whose total has none in it does not. */
const addsUpWithout = ({ tes, pcs, total, bonus }: Protocol): boolean =>
  tes !== null && pcs !== null && total !== null && total === tes + pcs + (bonus ?? 0);

type Place = Pick<Finding, 'at' | 'published' | 'expected'>;

/** Only the sum is printed: too little for the falls, or exactly that of more falls. */
function ofTheSum(total: Hundredths, needed: Hundredths, scale: DeductionRules): Place | null {
  if (total === needed || (total < needed && !isSumOfFalls(total, scale))) return null;
  return { at: 'deductions', published: toPoints(total), expected: toPoints(needed) };
}

function ofTheItems(items: readonly DeductionItem[], falls: number, needed: Hundredths): Place | null {
  const at = items.findIndex((item) => deductionKind(item.reason) === 'fall');
  const item = items[at];
  if (item === undefined) return { at: 'deductions', published: null, expected: toPoints(needed) };
  if (item.count !== null)
    return item.count === falls ? null : { at: `deductions[${at}].count`, published: item.count, expected: falls };
  return item.points === needed
    ? null
    : { at: `deductions[${at}].points`, published: toPoints(item.points), expected: toPoints(needed) };
}

/** More falls than a program could have; ends the search for an explanation. */
const MOST_FALLS = 20;

function isSumOfFalls(deducted: Hundredths, scale: DeductionRules): boolean {
  for (let count = 1; count <= MOST_FALLS; count += 1) if (fallPoints(scale, count) === deducted) return true;
  return false;
}

const points = (value: Hundredths): string => (value / 100).toFixed(2);
