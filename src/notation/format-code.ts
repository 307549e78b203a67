import type { Element, Jump, JumpElement, ParsedCode, SpinElement } from './element.ts';
import { formatFeedback } from './feedback.ts';

/**
 * The canonical code of an element, lossless: `3Lz<+2T`, `3A+SEQ+2T*`, `3Fe<<`, `CCoSp3V`, `StSq`.
 * `parseCode(formatElement(e))` gives the same element again.
 */
export function formatElement(element: Element): string {
  switch (element.kind) {
    case 'jump':
      return formatJumps(element);
    case 'spin':
      return formatSpin(element);
    case 'steps':
      return `StSq${element.level ?? ''}${star(element)}`;
    case 'choreo':
      return `${element.form}${element.level ?? ''}${star(element)}`;
  }
}

/** As `formatElement`, followed by `F`, `x` and the letters where there are any: `StSq2 F x YNN`. */
export function formatCode(parsed: ParsedCode): string {
  const letters = parsed.feedback === null ? [] : [formatFeedback(parsed.feedback)];
  return [formatElement(parsed.element), ...(parsed.fall ? ['F'] : []), ...(parsed.half ? ['x'] : []), ...letters].join(
    ' ',
  );
}

const star = (one: { readonly noValue: boolean }): string => (one.noValue ? '*' : '');

function formatJumps({ jumps, markers }: JumpElement): string {
  const parts = jumps.flatMap((jump, index) => [
    formatJump(jump),
    ...markers.filter((one) => one.after === index + 1).map((one) => one.marker),
  ]);
  return parts.join('+');
}

/** One jump with its calls in the order of the sheet: edge, rotation, no value. */
export const formatJump = (jump: Jump): string =>
  `${jump.turns === 0 ? '' : jump.turns}${jump.name}${jump.edge ?? ''}${jump.rotation ?? ''}${star(jump)}`;

function formatSpin(spin: SpinElement): string {
  const head = `${spin.flying ? 'F' : ''}${spin.changeFoot ? 'C' : ''}${spin.position}Sp`;
  return `${head}${spin.level ?? ''}${spin.v === 0 ? '' : spin.v === 1 ? 'V' : 'V2'}${star(spin)}`;
}
