import { describeProblem } from '../notation/index.ts';
import { readProtocol, type Protocol } from '../scoring/index.ts';
import { UsageError, type Io } from './io.ts';
import { readSheets } from './sheets.ts';
import { readValues } from './values.ts';

/** Protocols of a file, with what could not be read. */
export interface EarlierProtocols {
  readonly protocols: readonly Protocol[];
  /** The values as given, beside their protocols: fields that the form does not name. */
  readonly given: readonly unknown[];
  readonly warnings: readonly string[];
}

/** Reads a file of earlier protocols whole; lines that cannot be read are left out with a warning. */
export async function readEarlier(file: string, io: Io): Promise<EarlierProtocols> {
  const protocols: Protocol[] = [];
  const given: unknown[] = [];
  const warnings: string[] = [];
  for await (const value of readValues(file, io, readSheets)) {
    const protocol = value.read.ok ? readProtocol(value.read.value) : value.read;
    if (protocol.ok && value.read.ok) {
      protocols.push(protocol.value);
      given.push(value.read.value);
    } else if (!protocol.ok) {
      warnings.push(`${file}, line ${value.line} was left out: ${describeProblem(protocol.error)}`);
    }
  }
  if (protocols.length === 0) {
    throw new UsageError([`${file}: no protocol in it can be read.`, ...warnings.slice(0, 5)].join('\n'));
  }
  return { protocols, given, warnings };
}

/** Field `video` of a protocol as given (yes, no, true, false): was there video review? null: not said. */
export function videoOf(given: unknown): 'yes' | 'no' | null {
  const value: unknown = typeof given === 'object' && given !== null && 'video' in given ? given.video : null;
  if (value === true || value === 'yes') return 'yes';
  return value === false || value === 'no' ? 'no' : null;
}
