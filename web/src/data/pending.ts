import { useSyncExternalStore } from 'react';
import type { Kind } from '../../../src/store/kinds.ts';
import { api, ApiError, type RecordOf } from './api.ts';

/**
 * Records that wait on this device until the server answers: a cold rink has no network. They are
 * sent in order, again and again, and each has its own id, so that twice is the same as once.
 */
const PLACE = 'edgeledger-waiting';
const EVERY = 5000;

interface Waiting {
  readonly kind: Kind;
  readonly record: { readonly id: string };
}

const listeners = new Set<() => void>();
let waiting: readonly Waiting[] = load();
let sending = false;

function load(): readonly Waiting[] {
  try {
    return JSON.parse(localStorage.getItem(PLACE) ?? '[]') as Waiting[];
  } catch {
    return [];
  }
}

function change(next: readonly Waiting[]): void {
  waiting = next;
  localStorage.setItem(PLACE, JSON.stringify(next));
  for (const listener of listeners) listener();
}

/** Keeps a record on this device and sends it as soon as the server answers. */
export function keepLater<K extends Kind>(kind: K, record: RecordOf<K>): void {
  change([...waiting, { kind, record }]);
  void sendAll();
}

async function sendAll(): Promise<void> {
  if (sending) return;
  sending = true;
  try {
    for (let next = waiting[0]; next !== undefined; next = waiting[0]) {
      await api.put(next.kind, next.record as RecordOf<Kind>);
      change(waiting.slice(1));
    }
  } catch (error) {
    // A refusal will not become a yes by waiting; no answer may.
    if (error instanceof ApiError && error.status >= 400 && error.status < 500) change(waiting.slice(1));
  } finally {
    sending = false;
  }
}

setInterval(() => {
  if (waiting.length > 0) void sendAll();
}, EVERY);

/** How many records wait to be sent. */
export const usePending = (): number =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => waiting.length,
  );
