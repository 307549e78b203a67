import { daysOf20, estimate } from '../forecast/index.ts';
import type { KindView, SeasonView } from './season-view.ts';
import type { SinceLast } from './since-last.ts';
import type { Trend } from './trend.ts';

const signed = (x: number): string => (x < 0 ? `−${Math.abs(x).toFixed(2)}` : `+${x.toFixed(2)}`);

function trendWords(name: string, trend: Trend | null): string {
  if (trend === null) return '';
  if (trend.direction === 'none') return `${name}: no trend larger than the noise over ${trend.n} events.`;
  const way = trend.direction === 'up' ? 'up' : 'down';
  return `${name}: ${way} by about ${estimate(Math.abs(trend.perEvent))} an event over ${trend.n} events, more than the noise.`;
}

function lastWords(last: SinceLast | null): readonly string[] {
  if (last?.total == null) return [];
  const range = last.usual === null ? '' : ` (until then ${estimate(last.usual.low)} to ${estimate(last.usual.high)})`;
  const where = {
    inside: `inside the usual range${range}`,
    above: `above the usual range${range}`,
    below: `outside the usual range${range}: look at video before deciding`,
    unknown: 'too few programs before it for a usual range',
  }[last.standing];
  const change = last.change === null ? '' : ` (${signed(last.change)} against ${last.before})`;
  const changed = last.elements.filter((e) => e.points !== null && Math.abs(e.points) >= 1);
  const list = changed.map((e) => `${e.before ?? ''} to ${e.now ?? ''} ${signed(e.points ?? 0)}`).join(', ');
  const fresh = last.elements.filter((e) => e.before === null && e.now !== null).map((e) => e.now ?? '');
  return [
    `Last: ${last.total.toFixed(2)} at ${last.competition}${change}, ${where}.`,
    list === '' ? '' : `Elements that moved by a point or more: ${list}.`,
    fresh.length === 0 ? '' : `Not in the program before: ${fresh.join(', ')}.`,
    last.otherVideo ? 'The two events differ in video review; calls are not alike.' : '',
  ];
}

/** The same scale as days of twenty, for a series of events. */
const oftenWords = (p: number): string => daysOf20(p).replace('on about', 'in about').replace('days', 'such series');

const kindLines = (view: KindView): readonly string[] => [
  `${view.kind}: ${view.programs} ${view.programs === 1 ? 'program' : 'programs'}.`,
  view.usual === null
    ? 'No usual range yet: it takes three programs.'
    : `Usually between ${estimate(view.usual.low)} and ${estimate(view.usual.high)}, based on ${view.usual.n} of the skater’s own programs; a day outside is normal.`,
  ...lastWords(view.sinceLast),
  trendWords('Total', view.totalTrend),
  trendWords('Element score', view.tesTrend),
  trendWords('Mean component mark', view.componentTrend),
  ...(view.targets ?? []).map(
    ({ target, events, p }) =>
      `${target.toFixed(2)} or more at least once in ${events === 1 ? 'the next event' : `the next ${events} events`}: ${oftenWords(p)}.`,
  ),
];

/** A season in the coach's voice, one sentence a line; groups are parted by an empty line. */
export function seasonLines(view: SeasonView): readonly string[] {
  const groups: readonly (readonly string[])[] = [
    ...view.kinds.map(kindLines),
    view.bests.map(
      ({ kind, personal, season }) =>
        `${kind}: personal best ${personal.total.toFixed(2)} (${personal.competition}), season’s best ${season.total.toFixed(2)} (${season.competition}).`,
    ),
    view.elements
      .slice(0, 12)
      .map(({ element, executions, clean }) => `${element}: as meant in ${clean} of ${executions.length}.`),
    view.levels.map(
      ({ element, n, levels }) =>
        `${element}: ${Object.entries(levels)
          .map(([level, times]) => (level === 'none' ? `no level ${times}` : `level ${level} ${times}`))
          .join(', ')} of ${n}.`,
    ),
    view.calls
      .filter(({ calls }) => Object.keys(calls).length > 0)
      .map(
        ({ jump, video, tries, calls }) =>
          `${jump}${video === 'unknown' ? '' : video === 'yes' ? ' (with video)' : ' (without video)'}: ${Object.entries(
            calls,
          )
            .map(([call, times]) => `${call} ${times}`)
            .join(', ')} of ${tries} tries.`,
      ),
    view.warnings,
  ];
  return groups
    .map((group) => group.filter((line) => line !== ''))
    .filter((group) => group.length > 0)
    .flatMap((group, i) => (i === 0 ? group : ['', ...group]));
}
