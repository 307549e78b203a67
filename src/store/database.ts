import type { Generated } from 'kysely';

/**
 * The tables. Columns that are asked for stand alone; the whole record stands in `record` as JSON text.
 * Only text and integers, so that SQLite and PostgreSQL answer alike.
 */
export interface RecordTable {
  kind: string;
  id: string;
  skater_id: string | null;
  competition_id: string | null;
  /** What a note is about; null: any other kind. */
  about_id: string | null;
  segment: string | null;
  season: string | null;
  /** A protocol's codes with their calls, a space between: what lists show without the whole record. */
  brief: string | null;
  /** Date or name by which lists of the kind are ordered. */
  sort: string;
  record: string;
  /** 1: a protocol that is not released; null: everything else. */
  held: number | null;
}

export interface SheetTable {
  id: string;
  name: string;
  media: string;
  sha256: string;
  /** Base64 text of the original bytes: equal on both databases, and exportable as it is. */
  content: string;
  size: number;
  received_at: string;
}

export interface JournalTable {
  no: Generated<number>;
  at: string;
  kind: string;
  id: string;
  /** The record before and after; null: it did not exist. */
  before: string | null;
  after: string | null;
  undone: number;
  /** Entries with the same number here are taken back together; null: alone. */
  batch: number | null;
}

export interface Database {
  records: RecordTable;
  sheets: SheetTable;
  journal: JournalTable;
}
