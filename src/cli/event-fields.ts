import { stat } from 'node:fs/promises';

import { fieldOf, SMALLEST_FIELD, type Field } from '../reading/index.ts';
import { readProtocol, type Protocol } from '../scoring/index.ts';
import type { Io } from './io.ts';
import type { RuleChooser } from './rules.ts';
import { readValues, type InputValue, type OtherReader } from './values.ts';

/** The fields of the events in one file, and the means to read that file again. */
export interface EventFields {
  readonly of: (protocol: Protocol) => Field | null;
  readonly io: Io;
  readonly other: OtherReader;
}

/** Longer inputs are read once, without fields: they are archives, not an event. */
const LONGEST = 16 * 1024 * 1024;

/**
 * Looks through a file once for events with ten skaters or more. What was read from standard input, or
 * taken from a pasted sheet, is kept for the reading proper; a longer input is left as it is.
 */
export async function eventFields(file: string, io: Io, other: OtherReader, rules: RuleChooser): Promise<EventFields> {
  const held = file === '-' ? await heldInput(io) : { io, whole: await isShort(file) };
  const remembered = held.whole ? once(other) : other;
  const events = new Map<string, Protocol[]>();
  if (held.whole) {
    for await (const { read } of readValues(file, held.io, remembered)) {
      const protocol = read.ok ? readProtocol(read.value) : null;
      const key = protocol?.ok === true ? eventOf(protocol.value) : null;
      if (protocol?.ok !== true || key === null) continue;
      const event = events.get(key) ?? [];
      event.push(protocol.value);
      events.set(key, event);
    }
  }
  const fields = new Map(
    [...events].filter(([, list]) => list.length >= SMALLEST_FIELD).map(([key, list]) => [key, field(list, rules)]),
  );
  return { of: (protocol) => fields.get(eventOf(protocol) ?? '') ?? null, io: held.io, other: remembered };
}

function field(protocols: readonly Protocol[], rules: RuleChooser): Field | null {
  const [first] = protocols;
  const chosen = first === undefined ? null : rules.choose(first);
  return chosen?.ok === true ? fieldOf(protocols, chosen.value.values.values.panel) : null;
}

/** One segment of one category at one competition; null where the sheet does not name it. */
const eventOf = (protocol: Protocol): string | null =>
  protocol.competition === null
    ? null
    : JSON.stringify([protocol.competition, protocol.season, protocol.category, protocol.segment]);

const isShort = (file: string): Promise<boolean> =>
  stat(file).then(
    (found) => found.size <= LONGEST,
    () => false,
  );

/** Standard input up to the limit, kept so that it can be read again. */
async function heldInput(io: Io): Promise<{ readonly io: Io; readonly whole: boolean }> {
  const chunks: Uint8Array[] = [];
  const rest = io.input()[Symbol.asyncIterator]();
  let size = 0;
  let done = false;
  while (!done && size <= LONGEST) {
    const next = await rest.next();
    if (next.done === true) done = true;
    else {
      chunks.push(next.value);
      size += next.value.length;
    }
  }
  const input = async function* (): AsyncGenerator<Uint8Array> {
    yield* chunks;
    for (let next = done ? null : await rest.next(); next !== null && next.done !== true; next = await rest.next())
      yield next.value;
  };
  return { io: { ...io, input }, whole: done };
}

/** Reads a sheet that is not JSON once and remembers what it held. */
function once(other: OtherReader): OtherReader {
  let kept: Promise<readonly InputValue[]> | null = null;
  return (bytes, name) => (kept ??= listOf(other(bytes, name)));
}

async function listOf(found: ReturnType<OtherReader>): Promise<readonly InputValue[]> {
  const values: InputValue[] = [];
  for await (const value of await found) values.push(value);
  return values;
}
