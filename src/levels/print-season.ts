import type { PositionInference } from './season-spins.ts';
import type { Interval, StepInference } from './season-steps.ts';
import { plural, wrap } from './words.ts';

/** What several sheets say about the planned turns, with the assumptions, for a coach. */
export function printStepInference(found: StepInference, width = 80): string {
  const used = found.sheets.filter((one) => one.used).length;
  const lines = [`From ${plural(used, 'sheet')} with a step sequence:`];
  if (found.rate !== null && found.turns !== null) {
    lines.push(
      `  Of ${found.turns.planned} planned turns usually ${found.turns.mean.toFixed(1)} are credited ` +
        `(${range(found.turns, (n) => n.toFixed(1))}); each turn in about ${percent(found.rate.mean)} (${range(found.rate, percent)}).`,
    );
  } else lines.push('  Nothing can be said about the turns.');
  found.sheets.forEach(({ why }, at) => {
    if (why !== null) lines.push(`  Sheet ${at + 1}: ${why}.`);
  });
  lines.push('Assumed:', ...found.assumptions.map((one) => `  - ${one}`));
  return lines.map((line) => wrap(line, width, '    ')).join('\n');
}

/** What several sheets say about positions in combination spins. */
export function printPositions(
  found: readonly PositionInference[],
  assumptions: readonly string[],
  width = 80,
): string {
  const lines = found.map(
    ({ position, missed, held, rate }) =>
      `  ${position}: missed in ${missed} of ${plural(missed + held, 'combination spin')}; ` +
      `usually in about ${percent(rate.mean)} (${range(rate, percent)}).`,
  );
  const unknown = found[0]?.unknown ?? 0;
  if (unknown > 0) lines.push(`  ${plural(unknown, 'V')} without a printed cause left out.`);
  return ['Positions of combination spins:', ...lines, 'Assumed:', ...assumptions.map((one) => `  - ${one}`)]
    .map((line) => wrap(line, width, '    '))
    .join('\n');
}

const percent = (p: number): string => `${Math.round(p * 100)} %`;
const range = (of: Interval, show: (n: number) => string): string =>
  `${show(of.low)} to ${show(of.high)}, ${Math.round(of.level * 100)} % interval`;
