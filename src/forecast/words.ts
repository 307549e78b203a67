import type { Forecast } from './forecast.ts';

/** An estimate in points: tenths, the real minus. */
export const estimate = (points: number): string => points.toFixed(1).replace('-', '−');

/** A chance as days out of twenty, the form in which a coach may read it; never for skater or family. */
export function daysOf20(p: number): string {
  const days = Math.round(p * 20);
  if (days < 1) return 'hardly ever';
  if (days > 19) return 'nearly always';
  return `on about ${days} of 20 days`;
}

const NAMES: Readonly<Record<Forecast['on'], string>> = {
  tes: 'Element score',
  pcs: 'Component score',
  total: 'Total of the segment',
  event: 'Total of both segments',
};

/** The elements that make most of the spread, in words; empty where one value is certain. */
function movers(forecast: Forecast, codes: readonly string[]): string {
  const most = [...forecast.byElement].sort((a, b) => b.share - a.share).slice(0, 3);
  const told = most.filter((e) => e.share >= 0.05).map((e) => codes[e.no - 1] ?? `element ${e.no}`);
  return told.length === 0 ? '' : `What moves it most: ${told.join(', ')}.`;
}

const chanceLines = (forecast: Forecast): readonly string[] =>
  forecast.chances === null
    ? ['No chance of a target is printed: that takes three of the skater’s own protocols of the segment.']
    : forecast.chances.map(({ target, p }) => `${target.toFixed(2)} or more: ${daysOf20(p)}.`);

function placeLine({ places }: Forecast): string {
  if (places === undefined) return '';
  if (places === null)
    return 'No chance of a place is printed: that takes three of the skater’s own protocols of the segment.';
  let sum = 0;
  const told = places.slice(0, 10).map(({ place, p }) => `${place} or better ${daysOf20((sum += p))}`);
  return `Against this field: place ${told.join('; ')}.`;
}

function sensitivityLines(forecast: Forecast, codes: readonly string[]): readonly string[] {
  const found = [...(forecast.sensitivity ?? [])].sort((a, b) => b.mean - a.mean).slice(0, 5);
  return found.map(
    ({ no, mean }) =>
      `${codes[no - 1] ?? `element ${no}`}: one more of ten tries as planned is worth about ${estimate(mean * 10)} points.`,
  );
}

/**
 * A forecast in the coach's voice, one sentence a line. Ranges in tenths, chances in days of twenty,
 * the basis beside them.
 */
export function forecastLines(
  forecast: Forecast,
  codes: readonly string[],
  targets: readonly number[],
): readonly string[] {
  const q = forecast.quantiles;
  const range =
    q['0.025'] === q['0.975']
      ? `${NAMES[forecast.on]}: ${q['0.5'].toFixed(2)}, with nothing left to chance in what you entered.`
      : `${NAMES[forecast.on]}: usually between ${estimate(q['0.1'])} and ${estimate(q['0.9'])}, the middle ${estimate(q['0.5'])}; a day outside is normal (19 of 20 days lie between ${estimate(q['0.025'])} and ${estimate(q['0.975'])}).`;
  return [
    range,
    ...(targets.length > 0 ? chanceLines(forecast) : []),
    placeLine(forecast),
    movers(forecast, codes),
    ...sensitivityLines(forecast, codes),
    forecast.basis.words,
    ...forecast.warnings,
  ].filter((line) => line !== '');
}

/** Said once under a page of forecasts. */
export const FORECAST_CAUTION =
  'For the coach. Computed without rounding error from uncertain estimates; ranges and chances are not for the skater unless you open them.';
