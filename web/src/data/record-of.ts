import { useMemo } from 'react';
import type { LayoutRecord, ProtocolRecord, RunThrough, Skater } from './api.ts';
import { historyForms, type ProgramRecordForms } from './history.ts';
import { runThroughForms } from './run-throughs.ts';
import { useList } from './use.ts';

const NO_PROTOCOLS: readonly ProtocolRecord[] = [];
const NO_RUNS: readonly RunThrough[] = [];
const NO_LAYOUTS: readonly LayoutRecord[] = [];

/** What is kept of one skater for everything that is computed of a program; the same value until it changes. */
export function useRecordOf(skater: Skater, withPractice: boolean) {
  const protocols = useList('protocols', { skaterId: skater.id });
  const logged = useList('runthroughs', { skaterId: skater.id }).data ?? NO_RUNS;
  const layouts = useList('layouts', { skaterId: skater.id }).data ?? NO_LAYOUTS;
  const history = useMemo(() => historyForms(protocols.data ?? NO_PROTOCOLS), [protocols.data]);
  const runs = useMemo(() => runThroughForms(logged, layouts), [logged, layouts]);
  const forms = useMemo<ProgramRecordForms>(
    () => ({ body: skater.body, history, practice: withPractice ? runs : [] }),
    [skater.body, history, runs, withPractice],
  );
  return { forms, runs, layouts, isReady: protocols.data !== undefined };
}
