import type { ProtocolRecord, RunThrough, Skater } from './api.ts';
import { useList } from './use.ts';
import { threeSentences, type ThreeSentences } from '../../../src/season/three-sentences.ts';

/** What changed lately for one skater, in three sentences. */
export function useThreeSentences(skater: Skater, protocols: readonly ProtocolRecord[]): ThreeSentences {
  const runThroughs = useList('runthroughs', { skaterId: skater.id });
  return threeSentences(protocols.map(eventOf), (runThroughs.data ?? []).map(runOf));
}

function eventOf(record: ProtocolRecord) {
  const elements = Array.isArray(record.form.elements)
    ? (record.form.elements as { code?: unknown; info?: unknown }[])
    : [];
  return {
    event: record.competitionId,
    date: record.date ?? '',
    codes: elements.map((e) => `${textOf(e.code)}${textOf(e.info)}`),
  };
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

const runOf = (run: RunThrough) => ({ at: run.at, exceptions: run.exceptions });
