import type { LoggedRunThrough } from '../../../src/forecast/index.ts';
import type { LayoutRecord, ProtocolRecord, Skater } from './api.ts';

/** What every computation on a program needs beside the program itself. */
export interface ProgramRecordForms {
  readonly body: string | null;
  readonly history: readonly Record<string, unknown>[];
  /** Run-throughs to learn from; empty where the coach has not switched them on. */
  readonly practice: readonly LoggedRunThrough[];
}

/** Her protocols as forms, with the category, season and date that the records carry. */
export const historyForms = (protocols: readonly ProtocolRecord[]): Record<string, unknown>[] =>
  protocols.map((p) => ({
    ...p.form,
    season: p.season,
    category: p.category,
    segment: p.segment,
    ...(p.date === null ? {} : { date: p.date }),
  }));

/** A layout's form with the season, category and segment of its record. */
export const layoutForm = (
  form: Readonly<Record<string, unknown>>,
  layout: LayoutRecord,
  skater: Skater,
): Record<string, unknown> => ({ ...form, season: layout.season, category: skater.category, segment: layout.segment });
