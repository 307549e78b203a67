import type { Backtest } from './backtest.ts';
import { RIVALS, type Rival } from './rivals.ts';
import type { Figures } from './summary.ts';

const NAMES: Readonly<Record<'model' | Rival, string>> = {
  model: 'model',
  lastScore: 'last score',
  meanOfLastThree: 'mean of last three',
  skaterMean: 'skater mean, shrunk',
  plannedBase: 'around planned base',
};

const per = (share: number): string => `${Math.round(share * 100)} in 100`;

function row(name: string, { n, crps, ratio, coverage }: Figures): string {
  const rivals = RIVALS.map((rival) => `${NAMES[rival]} ${crps[rival].toFixed(2)}`).join(', ');
  const inside = `inside the 50, 80, 95 % ranges: ${per(coverage['0.5'])}, ${per(coverage['0.8'])}, ${per(coverage['0.95'])}`;
  return `${name}: ${n} forecasts. CRPS model ${crps.model.toFixed(2)} (${rivals}); ${ratio.toFixed(3)} of the best rival; ${inside}.`;
}

/** The summary of a backtest, one paragraph a line. */
export function backtestLines({ summary, priors }: Backtest): readonly string[] {
  if (summary.n === 0) {
    return ['No protocol in this file has an earlier one of its category and segment: nothing could be forecast.'];
  }
  return [
    row('All', summary),
    row('With earlier protocols of the skater', summary.withOwn),
    ...Object.entries(summary.bySegment).map(([key, figures]) => row(key, figures)),
    ...Object.entries(summary.byEarlier).map(([n, figures]) => row(`${n} earlier`, figures)),
    `Scores by tenth of the forecast distribution (flat is right): ${summary.pit.join(' ')}.`,
    `Rates of the field: ${priors}. A forecast used lines of an earlier order or date and the rulebook, nothing else.`,
    'What holds for the skaters of this file need not hold for others, least of all for children.',
  ];
}
