import type { RecordOf } from '../kinds.ts';

/** Records for tests: only what a test is about is chosen, the rest is plain. */
export const skater = (id: string, name: string): RecordOf<'skaters'> => ({
  id,
  name,
  category: 'novice women',
  body: null,
  nextLesson: null,
  notNow: [],
  archived: false,
});

export const goal = (id: string, skaterId: string, text: string): RecordOf<'goals'> => ({
  id,
  skaterId,
  kind: 'habit',
  text,
  due: '2026-12-01',
  target: null,
  on: null,
  state: 'open',
  movedBecause: null,
});

export const protocol = (
  id: string,
  skaterId: string,
  date: string,
  codes: readonly string[],
): RecordOf<'protocols'> => ({
  id,
  skaterId,
  competitionId: null,
  sheetId: null,
  category: 'novice women',
  segment: 'free',
  season: '2025/26',
  date,
  practice: false,
  tes: null,
  pcs: null,
  total: null,
  form: { elements: codes.map((code) => ({ code })) },
  reader: '1',
  onHerPage: [],
  releasedAt: null,
});

export const note = (id: string, aboutId: string): RecordOf<'notes'> => ({
  id,
  about: 'protocols',
  aboutId,
  element: null,
  box: 'private',
  text: 'x',
  videoAt: null,
});
