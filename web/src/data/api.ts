import type { ThreeSentences } from '../../../src/season/three-sentences.ts';
import type { Kind, RecordOf } from '../../../src/store/kinds.ts';

export type { RecordOf };
export type Skater = RecordOf<'skaters'>;
export type Competition = RecordOf<'competitions'>;
export type ProtocolRecord = RecordOf<'protocols'>;
export type LayoutRecord = RecordOf<'layouts'>;
export type PlanRecord = RecordOf<'plans'>;
export type RunThrough = RecordOf<'runthroughs'>;
export type Goal = RecordOf<'goals'>;
export type Note = RecordOf<'notes'>;

/** A skater with what a line about her shows. */
export interface PersonLine {
  readonly skater: Skater;
  /** Id of her newest protocol. */
  readonly newest: string | null;
  /** Her newest run-throughs, newest first, ten at most. */
  readonly runs: readonly RunThrough[];
  readonly sentences: ThreeSentences;
}

/** An answer of the server that is not a yes: problem details, as words for the screen. */
export class ApiError extends Error {
  readonly status: number;
  readonly places: readonly { at: string; expected: string }[];
  constructor(status: number, title: string, detail: string, places: readonly { at: string; expected: string }[]) {
    super(`${title} ${detail}`.trim());
    this.status = status;
    this.places = places;
  }
}

interface ProblemBody {
  title?: string;
  detail?: string;
  problems?: { at: string; expected: string }[];
}

async function ask<T>(path: string, init?: RequestInit): Promise<T> {
  const answer = await fetch(path, init).catch(() => {
    throw new ApiError(0, 'No answer from the server on this machine.', 'Start it again with npm start.', []);
  });
  if (answer.ok) return (answer.status === 204 ? null : await answer.json()) as T;
  const body = (await answer.json().catch(() => ({}))) as ProblemBody;
  throw new ApiError(answer.status, body.title ?? 'The server said no.', body.detail ?? '', body.problems ?? []);
}

const send = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

/** A new id, made here so that a repeated request writes the same record. */
export const newId = (): string => crypto.randomUUID();

export const api = {
  list: <K extends Kind>(kind: K, query: Record<string, string> = {}) =>
    ask<RecordOf<K>[]>(`/api/${kind}?${new URLSearchParams(query)}`),
  get: <K extends Kind>(kind: K, id: string) => ask<RecordOf<K>>(`/api/${kind}/${encodeURIComponent(id)}`),
  people: (query: Record<string, string>) => ask<PersonLine[]>(`/api/people?${new URLSearchParams(query)}`),
  put: <K extends Kind>(kind: K, record: RecordOf<K>) =>
    ask<RecordOf<K>>(`/api/${kind}/${encodeURIComponent(record.id)}`, send('PUT', record)),
  remove: (kind: Kind, id: string) => ask<null>(`/api/${kind}/${encodeURIComponent(id)}`, { method: 'DELETE' }),
  undo: () => ask<{ kind: string; id: string }>('/api/undo', send('POST', {})),
  clear: () => ask<null>('/api/clear', send('POST', { confirm: 'remove everything' })),
  ask,
  send,
};
