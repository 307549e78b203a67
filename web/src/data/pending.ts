import { useSyncExternalStore } from 'react';
import type { Kind } from '../../../src/store/kinds.ts';
import { api, ApiError, type RecordOf } from './api.ts';

/**
 * Records that wait on this device until the server answers: a cold rink has no network. They are
 * sent in order, again and again, and each has its own id, so that twice is the same as once.
 * A record that the server refuses is kept aside with its reason until the coach has seen it.
 */
const PLACE = 'edgeledger-waiting';
const REFUSED = 'edgeledger-refused';
const EVERY = 5000;

interface Waiting {
  readonly kind: Kind;
  readonly record: { readonly id: string };
}

/** A record that the server did not take, and why. */
export interface Refused extends Waiting {
  readonly why: string;
}

const listeners = new Set<() => void>();
let waiting: readonly Waiting[] = load(PLACE);
let refused: readonly Refused[] = load(REFUSED);
let sending = false;

function load<T>(place: string): readonly T[] {
  try {
    return JSON.parse(localStorage.getItem(place) ?? '[]') as T[];
  } catch {
    return [];
  }
}

function change(next: readonly Waiting[], aside: readonly Refused[] = refused): void {
  waiting = next;
  refused = aside;
  localStorage.setItem(PLACE, JSON.stringify(next));
  localStorage.setItem(REFUSED, JSON.stringify(aside));
  for (const listener of listeners) listener();
}

/** Keeps a record on this device and sends it as soon as the server answers. */
export function keepLater<K extends Kind>(kind: K, record: RecordOf<K>): void {
  change([...waiting, { kind, record }]);
  void sendAll();
}

/** Takes a record back that was kept a moment ago: from what waits here, else from the server. */
export async function takeBack(kind: Kind, id: string): Promise<void> {
  if (waiting.some((one) => one.record.id === id)) change(waiting.filter((one) => one.record.id !== id));
  else await api.remove(kind, id);
}

/** A refusal will not become a yes by waiting; too many requests, a time-out or no answer may. */
const isRefusal = (error: unknown): error is ApiError =>
  error instanceof ApiError &&
  error.status >= 400 &&
  error.status < 500 &&
  error.status !== 408 &&
  error.status !== 429;

async function sendAll(): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    for (let next = waiting[0]; next !== undefined; next = waiting[0]) await sendOne(next);
  } catch {
    // No answer: it stays where it is and is sent again.
  } finally {
    sending = false;
  }
}

async function sendOne(next: Waiting): Promise<void> {
  try {
    await api.put(next.kind, next.record as RecordOf<Kind>);
    change(waiting.slice(1));
  } catch (error) {
    if (!isRefusal(error)) throw error;
    change(waiting.slice(1), [...refused, { ...next, why: error.message }]);
  }
}

setInterval(() => {
  if (waiting.length > 0) void sendAll();
}, EVERY);

const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

/** How many records wait to be sent. */
export const usePending = (): number => useSyncExternalStore(subscribe, () => waiting.length);

/** Records that the server refused, each with its reason. */
export const useRefused = (): readonly Refused[] => useSyncExternalStore(subscribe, () => refused);

/** Sends a refused record once more, or gives it up. */
export function settleRefused(one: Refused, again: boolean): void {
  const rest = refused.filter((r) => r !== one);
  change(again ? [...waiting, { kind: one.kind, record: one.record }] : waiting, rest);
  if (again) void sendAll();
}
