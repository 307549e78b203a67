import type { CategoryAges, ExpectedRange, Move } from './move.ts';

const MARKS = { published: 'published', memory: 'from memory', local: 'your overlay' } as const;

function agesText(ages: CategoryAges | null): string {
  if (ages === null) return 'Ages: not established here; ask the federation.';
  const { min, under, on, citation } = ages;
  const limits = [...(min === null ? [] : [`at least ${min}`]), ...(under === null ? [] : [`under ${under}`])];
  const mark = citation.source.includes(MARKS[citation.status]) ? '' : ` (${MARKS[citation.status]})`;
  return `Ages: ${limits.join(' and ') || 'no limit known'}${on === '' ? '' : `, on ${on}`}: ${citation.source}${mark}. The federation decides who may enter.`;
}

const rangeText = (name: string, range: ExpectedRange | null): string =>
  range === null
    ? `${name}: no range (no layout, or a figure is not known).`
    : `${name}: usually between ${range.low.toFixed(1)} and ${range.high.toFixed(1)}, on average ${range.expected.toFixed(1)}; a day outside is normal.`;

/** What a move to another category means, for people. */
export function moveLines(move: Move): readonly string[] {
  const { from, to, illegal, missing, figures, range } = move;
  return [
    `From ${from.category} to ${to.category} (${to.rulebook}):`,
    agesText(move.ages),
    ...(illegal.length === 0
      ? ['Every element could stand in a layout there.']
      : ['Could not stand in a layout there:']),
    ...illegal.map(({ code, why }) => `- ${code}: ${why}`),
    ...(move.lowered.length === 0 ? [] : [`Levels above the cap count as the cap there: ${move.lowered.join(', ')}.`]),
    ...(missing.length === 0 ? ['Nothing that the segment asks is missing.'] : ['Missing there:']),
    ...missing.map((one) => `- ${one}`),
    ...(figures.length === 0 ? [] : ['What the rules count otherwise:']),
    ...figures.map(
      ({ what, before, after }) => `- ${what}: ${before ?? 'not known'} here, ${after ?? 'not known'} there`,
    ),
    ...(move.components === null ? [] : [move.components]),
    rangeText('Here', range.here),
    rangeText('There', range.there),
  ];
}
