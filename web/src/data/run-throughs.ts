import type { LoggedRunThrough } from '../../../src/forecast/index.ts';
import type { LayoutRecord, RunThrough } from './api.ts';

const codesOf = (layout: LayoutRecord | undefined): string[] =>
  Array.isArray(layout?.form.elements)
    ? (layout.form.elements as { code?: unknown }[]).map((e) => (typeof e.code === 'string' ? e.code : ''))
    : [];

/**
 * Logged run-throughs with the codes planned on their day. An older record does not say them: those of
 * its layout stand in, unless the layout was changed since (an exception names another code than it has).
 */
export function runThroughForms(runs: readonly RunThrough[], layouts: readonly LayoutRecord[]): LoggedRunThrough[] {
  const byId = new Map(layouts.map((l) => [l.id, l]));
  return runs.flatMap((run) => {
    const elements = run.planned ?? codesOf(byId.get(run.layoutId ?? ''));
    const fits = run.exceptions.every(({ no, code }) => elements[no - 1] === code);
    return elements.length === 0 || !fits ? [] : [{ at: run.at, elements, exceptions: run.exceptions }];
  });
}
