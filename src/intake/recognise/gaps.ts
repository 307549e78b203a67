import type { Problem } from '../../notation/index.ts';
import type { ComponentBlock } from './component-block.ts';
import type { ElementBlock } from './element-block.ts';
import { toPoints } from './figure.ts';
import type { SheetLines } from './sheet-lines.ts';
import type { Totals } from './totals.ts';
import { doubt, type Verdict } from './verdict.ts';

/** What a sheet does not print, as one line of evidence, and what of it looks like a cut. */
export interface Gaps {
  readonly evidence: readonly string[];
  readonly problems: readonly Problem[];
}

/**
 * Everything but the elements may be absent by intent: that is said once and doubts nothing. It is a
 * problem where something else of the sheet shows that it was meant to be there: totals without the
 * others, no judges' marks, or a picture, from which words get lost.
 */
export function gapsOf(
  elements: ElementBlock,
  components: ComponentBlock,
  totals: Totals,
  sheet: { readonly lines: SheetLines; readonly isPicture: boolean },
  verdict: Verdict,
): Gaps {
  const at = sheet.lines.items[0]?.line.at ?? sheet.lines.head[0]?.at ?? '';
  if (elements.rows.length === 0) doubt(verdict, 'elements', [], [], 'No element row was found.');
  const absent = [
    ...elementGaps(elements),
    ...componentGaps(components),
    ...TOTAL_NAMES.flatMap((name) => (totals[name] === null ? [TOTALS[name]] : [])),
  ];
  if (sheet.isPicture) doubtAbsent(elements, components, totals, verdict);
  const looksCut =
    sheet.isPicture ||
    elements.rows.length === 0 ||
    absent.includes(MARKS) ||
    TOTAL_NAMES.some((name) => totals[name] !== null);
  return {
    evidence: absent.length === 0 ? [] : [`${NOT_PRINTED}: ${absent.join(', ')}`],
    problems: [
      ...(absent.length > 0 && looksCut ? [partial(at, absent)] : []),
      ...judgesDiffer(elements, components, { at, held: totals.pcs?.closed === true }, verdict),
    ],
  };
}

const LOST = 'It was not found; in the picture it may have been lost.';

/** From a picture words get lost: what is not there is asked, not taken for not printed. */
function doubtAbsent(elements: ElementBlock, components: ComponentBlock, totals: Totals, verdict: Verdict): void {
  for (const name of TOTAL_NAMES) if (totals[name] === null) doubt(verdict, name, null, [], LOST);
  if (totals.deductions === null && totals.total?.closed !== true) doubt(verdict, 'deductions', null, [], LOST);
  if (components.rows.length === 0) doubt(verdict, 'components', [], [], LOST);
  const { plan } = elements;
  const names = ['base', 'goe', 'score'] as const;
  const lost = plan === null ? names : names.filter((name) => plan[name] === null);
  elements.rows.forEach((read, i) => {
    if (plan === null || plan.from === plan.to) doubt(verdict, `elements[${i}].marks`, read.marks, [], LOST);
    for (const name of lost) doubt(verdict, `elements[${i}].${name}`, null, [], LOST);
  });
}

/** Begins the line of evidence that names the parts which the sheet does not print. */
export const NOT_PRINTED = 'not printed';
const MARKS = 'judges’ marks';
const TOTAL_NAMES = ['tes', 'pcs', 'total'] as const;

const partial = (at: string, absent: readonly string[]): Problem => ({
  code: 'intake.partial',
  at,
  found: `no ${absent.join(', no ')}`,
  expected: 'all parts of the sheet',
  advice: 'Check whether the sheet was cut or a column left out.',
});

function elementGaps({ rows, plan }: ElementBlock): string[] {
  if (rows.length === 0) return ['elements'];
  if (plan === null) return [];
  const names = (['base', 'goe', 'score'] as const).filter((name) => plan[name] === null).map((name) => COLUMNS[name]);
  return plan.from === plan.to ? [...names, MARKS] : names;
}

function componentGaps({ rows, plan }: ComponentBlock): string[] {
  if (rows.length === 0) return ['components'];
  return [
    ...(plan?.score === null ? ['component scores'] : []),
    ...(plan?.factor === null ? ['component factors'] : []),
  ];
}

const COLUMNS = { base: 'base values', goe: 'grades of execution', score: 'scores of the elements' } as const;
const TOTALS = { tes: 'total element score', pcs: 'total component score', total: 'segment score' } as const;

/** Another number of judges: the marks are in doubt, and where no total holds the components, all their figures. */
function judgesDiffer(
  elements: ElementBlock,
  components: ComponentBlock,
  { at, held }: { readonly at: string; readonly held: boolean },
  verdict: Verdict,
): Problem[] {
  if (elements.plan === null || components.plan === null) return [];
  const a = elements.plan.to - elements.plan.from;
  const b = components.plan.to - components.plan.from;
  if (a === 0 || a === b) return [];
  const found = `${a} judges’ columns with the elements, ${b} with the components`;
  elements.rows.forEach((read, i) => doubt(verdict, `elements[${i}].marks`, read.marks, [], `${found}.`));
  components.rows.forEach((read, i) =>
    doubt(
      verdict,
      held ? `components[${i}].marks` : `components[${i}]`,
      read.marks.map((one) => (one === null ? null : toPoints(one))),
      [],
      `${found}.`,
    ),
  );
  return [
    {
      code: 'intake.judges',
      at,
      found,
      expected: 'the same judges in both tables',
      advice: 'Check whether a column was left out.',
    },
  ];
}
