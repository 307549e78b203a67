import type { SheetReading } from './recognise/reading.ts';

/** One category and segment of a competition as far as the sheets tell it. */
export interface EventTable {
  readonly competition: string | null;
  readonly season: string | null;
  readonly date: string | null;
  readonly category: string | null;
  readonly segment: string | null;
  /** Judges on the panel; null where sheets differ. */
  readonly judges: number | null;
  /** By printed rank, unranked ones last. */
  readonly entries: readonly EventEntry[];
  /** Ranks that do not follow the printed totals, in words. */
  readonly remarks: readonly string[];
}

export interface EventEntry {
  readonly rank: number | null;
  readonly startNumber: number | null;
  readonly skater: string | null;
  readonly total: number | null;
  readonly tes: number | null;
  readonly pcs: number | null;
}

/** Groups readings into events, for comparing a skater with the field. */
export function eventTables(readings: readonly SheetReading[]): EventTable[] {
  const groups = new Map<string, SheetReading[]>();
  for (const reading of readings) {
    const { competition, season, category, segment } = reading.protocol;
    const key = [competition, season, category, segment].map((one) => one ?? '').join('|');
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return [...groups.values()].map(tableOf);
}

function tableOf(readings: readonly SheetReading[]): EventTable {
  const protocol = readings[0]?.protocol;
  const sizes = new Set(readings.map((one) => one.protocol.elements[0]?.marks?.length ?? 0));
  const [judges] = sizes;
  const entries = readings
    .map(({ protocol: one }): EventEntry => ({
      rank: one.rank ?? null,
      startNumber: one.startNumber ?? null,
      skater: one.skater ?? null,
      total: one.total ?? null,
      tes: one.tes ?? null,
      pcs: one.pcs ?? null,
    }))
    .sort((a, b) => (a.rank ?? Infinity) - (b.rank ?? Infinity));
  return {
    competition: protocol?.competition ?? null,
    season: protocol?.season ?? null,
    date: protocol?.date ?? null,
    category: protocol?.category ?? null,
    segment: protocol?.segment ?? null,
    judges: sizes.size === 1 && judges !== undefined && judges > 0 ? judges : null,
    entries,
    remarks: rankRemarks(entries),
  };
}

/** A better rank with a smaller total, or one rank twice with different totals. */
function rankRemarks(entries: readonly EventEntry[]): string[] {
  const ranked = entries.filter((one) => one.rank !== null && one.total !== null);
  return ranked.slice(1).flatMap((here, i) => {
    const before = ranked[i];
    if (before?.total == null || here.total === null || before.total > here.total) return [];
    if (before.total === here.total) return [];
    return [
      `Rank ${before.rank ?? ''} has ${before.total.toFixed(2)}, rank ${here.rank ?? ''} has ${here.total.toFixed(2)}: a rank or a total may be misread.`,
    ];
  });
}
