import type { Comparison, OnlyIn } from './compare.ts';

/** The JSON answer of `compare`. */
export const compareJson = (result: Comparison): object => ({
  id: [result.a.id, result.b.id],
  ...result,
  ...(result.warnings.length > 0 ? {} : { warnings: undefined }),
});

const days = (chance: number): string => `about ${Math.round(chance * 20)} of 20 days`;

const line = ({ code, mean, sd }: OnlyIn): string =>
  `- ${code}: ${mean.toFixed(2)} on average, spread ${sd.toFixed(2)}`;

function list(name: string, elements: readonly OnlyIn[]): readonly string[] {
  return elements.length === 0 ? [] : [`Only in ${name}, or on another place there:`, ...elements.map(line)];
}

/** Components where they make a difference; otherwise what was done about marks that are missing. */
function componentLines({ components, componentsNote }: Comparison): readonly string[] {
  const differ = components !== null && components.a.toFixed(2) !== components.b.toFixed(2);
  return [
    ...(differ ? [`Components: ${components.a.toFixed(2)} on average in A, ${components.b.toFixed(2)} in B.`] : []),
    ...(componentsNote === null ? [] : [componentsNote]),
  ];
}

/** `compare` for people: what differs, how often A beats B, and whether that is a real difference. */
export function compareText(result: Comparison): string {
  const { a, b, difference } = result;
  const higher = difference >= 0 ? 'A' : 'B';
  const differences = result.differences;
  return [
    ...(differences.length === 0 ? ['The elements of the two layouts are the same.'] : []),
    ...list(
      'A',
      differences.filter((d) => d.side === 'a'),
    ),
    ...list(
      'B',
      differences.filter((d) => d.side === 'b'),
    ),
    ...componentLines(result),
    `A scores more than B on ${days(result.aBeatsB)} if what both have goes alike.`,
    result.insideNoise
      ? `No real difference: ${higher} is ${Math.abs(difference).toFixed(2)} higher on average, inside the noise of one program.`
      : `${higher} is ${Math.abs(difference).toFixed(2)} higher on average.`,
    `A usually falls between ${a.low.toFixed(1)} and ${a.high.toFixed(1)}, B between ${b.low.toFixed(1)} and ${b.high.toFixed(1)}; a day outside is normal.`,
    ...result.warnings.map((warning) => `Note: ${warning}`),
    'Computed without rounding error from uncertain estimates. For the coach.',
  ].join('\n');
}
