import type { Problem } from '../../notation/index.ts';
import type { ComponentBlock } from './component-block.ts';
import type { ElementBlock } from './element-block.ts';
import { toPoints } from './figure.ts';
import type { SheetLines } from './sheet-lines.ts';
import type { Totals } from './totals.ts';
import { doubt, type Verdict } from './verdict.ts';

/** What a whole sheet has and this one lacks: said as a finding and as a doubt, so that a cut sheet is seen. */
export function gapsOf(
  elements: ElementBlock,
  components: ComponentBlock,
  totals: Totals,
  lines: SheetLines,
  verdict: Verdict,
): Problem[] {
  const at = lines.items[0]?.line.at ?? lines.head[0]?.at ?? '';
  const gap = (path: string, code: string, found: string, expected: string): Problem => {
    doubt(verdict, path, path === 'elements' || path === 'components' ? [] : null, [], `${found}.`);
    return { code, at, found, expected, advice: 'Check whether the sheet was cut or a column left out.' };
  };
  const { plan } = elements;
  const missing = plan === null ? [] : (['base', 'goe', 'score'] as const).filter((name) => plan[name] === null);
  return [
    ...(elements.rows.length === 0
      ? [gap('elements', 'intake.no-elements', 'no element row', 'a table of elements')]
      : []),
    ...missing.map((name) =>
      gap(`elements.${name}`, 'intake.no-column', `no column of ${NAMES[name]}`, `a column of ${NAMES[name]}`),
    ),
    ...(plan !== null && plan.from === plan.to
      ? [gap('elements.marks', 'intake.no-marks', 'no judges’ marks', 'marks of 1 to 12 judges')]
      : []),
    ...(components.rows.length === 0
      ? [gap('components', 'intake.no-components', 'no component row', 'a table of components')]
      : []),
    ...(components.rows.length > 0 && components.plan?.score === null
      ? [gap('components.score', 'intake.no-column', 'no column of component scores', 'a column of component scores')]
      : []),
    ...(components.rows.length > 0 && components.plan?.factor === null
      ? [gap('components.factor', 'intake.no-column', 'no column of factors', 'a column of factors')]
      : []),
    ...(['tes', 'pcs', 'total'] as const).flatMap((name) =>
      totals[name] === null ? [gap(name, 'intake.no-total', `no ${NAMES[name]}`, `the ${NAMES[name]}`)] : [],
    ),
    ...judgesDiffer(elements, components, at, verdict),
  ];
}

const NAMES = {
  base: 'base values',
  goe: 'grades of execution',
  score: 'element scores',
  tes: 'element score',
  pcs: 'component score',
  total: 'segment score',
} as const;

function judgesDiffer(elements: ElementBlock, components: ComponentBlock, at: string, verdict: Verdict): Problem[] {
  if (elements.plan === null || components.plan === null) return [];
  const a = elements.plan.to - elements.plan.from;
  const b = components.plan.to - components.plan.from;
  if (a === 0 || a === b) return [];
  const found = `${a} judges’ columns with the elements, ${b} with the components`;
  elements.rows.forEach((read, i) => doubt(verdict, `elements[${i}].marks`, read.marks, [], `${found}.`));
  components.rows.forEach((read, i) =>
    doubt(
      verdict,
      `components[${i}].marks`,
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
