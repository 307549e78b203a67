import type { Insertable } from 'kysely';
import { briefOf } from './brief.ts';
import type { RecordTable } from './database.ts';
import { KINDS, type Kind } from './kinds.ts';

/** The columns that are asked for, taken out of a record; the record itself is checked once more. */
export function rowOf(kind: Kind, record: unknown): Insertable<RecordTable> {
  const checked = KINDS[kind].parse(record);
  const fields = checked as Record<string, unknown>;
  const textOf = (key: string) => (typeof fields[key] === 'string' ? fields[key] : null);
  return {
    kind,
    id: checked.id,
    skater_id: textOf('skaterId'),
    competition_id: textOf('competitionId'),
    about_id: textOf('aboutId'),
    segment: textOf('segment'),
    season: textOf('season'),
    sort: textOf('date') ?? textOf('at') ?? textOf('savedAt') ?? textOf('due') ?? textOf('name') ?? '',
    brief: kind === 'protocols' ? briefOf(fields.form) : null,
    record: JSON.stringify(checked),
    held: kind === 'protocols' && fields.releasedAt === null ? 1 : null,
  };
}
