import type { Protocol } from '../../scoring/index.ts';

const pts = (hundredths: number | null): string => (hundredths === null ? '' : (hundredths / 100).toFixed(2));
const left = (text: string, width: number): string => text.padEnd(width);
const right = (text: string, width: number): string => text.padStart(width);

/** A protocol as plain text in the demo club's own form, as if copied from its results page. */
export function sheetText(p: Protocol): string {
  const judges = p.elements[0]?.marks.length ?? 0;
  const marks = (values: readonly (number | null)[], show: (n: number) => string) =>
    values.map((v) => right(v === null ? '-' : show(v), 6)).join('');
  const elements = p.elements.map((e) =>
    [
      right(String(e.no ?? ''), 2),
      ' ',
      left(`${e.code}${e.feedback === null ? '' : ` ${e.feedback}`}`, 18),
      left(e.info, 5),
      right(pts(e.base), 7),
      e.half ? ' x' : '  ',
      right(pts(e.goe), 7),
      marks(e.marks, String),
      right(pts(e.score), 8),
    ].join(''),
  );
  const components = p.components.map((c) =>
    [left(c.name, 26), right(pts(c.factor), 7), ' '.repeat(9), marks(c.marks, pts), right(pts(c.score), 8)].join(''),
  );
  const judgeHeads = Array.from({ length: judges }, (_, i) => right(`J${i + 1}`, 6)).join('');
  const falls = p.deductions?.items ?? [];
  return [
    p.competition ?? '',
    `${title(p.category ?? '')} - ${p.segment === 'free' ? 'Free Skate' : 'Short Program'}`,
    `Season ${p.season ?? ''}   Date ${p.date ?? ''}`,
    '',
    `Skater: ${p.skater ?? ''}   start number ${p.startNumber ?? ''}`,
    `Total ${pts(p.total)}   Elements ${pts(p.tes)}   Components ${pts(p.pcs)}   Deductions ${pts(p.deductions?.total ?? 0)}`,
    '',
    `No ${left('Element', 18)}${left('Info', 5)}${right('Base', 7)}  ${right('GOE', 7)}${judgeHeads}${right('Score', 8)}`,
    ...elements,
    `   ${left('', 23)}${right(pts(sum(p.elements.map((e) => e.base))), 7)}${' '.repeat(9 + 6 * judges)}${right(pts(p.tes), 8)}`,
    '',
    `${left('Component', 26)}${right('Factor', 7)}${' '.repeat(9)}${judgeHeads}${right('Score', 8)}`,
    ...components,
    `Components (factored) ${pts(p.pcs)}`,
    '',
    ...falls.map((f) => `Deductions: Fall (${f.count ?? 1}) ${pts(f.points)}`),
    '',
  ].join('\n');
}

const title = (text: string): string => text.replace(/\b[a-z]/g, (letter) => letter.toUpperCase());

const sum = (values: readonly (number | null)[]): number => values.reduce<number>((all, v) => all + (v ?? 0), 0);
