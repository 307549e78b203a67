import { fail, ok, type Problem, type Result } from '../../notation/index.ts';
import { readProtocol, writeProtocol, type ProtocolForm } from '../../scoring/index.ts';

/** A protocol in its own form, or the trouble with its line. */
export interface JsonProtocol {
  readonly at: string;
  readonly read: Result<ProtocolForm>;
}

/** Text that can only be JSON or JSON Lines. */
export const looksLikeJson = (text: string): boolean => /^\s*[[{]/.test(text.slice(0, 1000));

/** Protocols of a JSON value, an array of them, or JSON Lines; a bad line does not stop the others. */
export function protocolsOfJson(text: string): JsonProtocol[] {
  const whole = parsed(text);
  if (whole.ok)
    return (Array.isArray(whole.value) ? whole.value : [whole.value]).map((one: unknown, i) =>
      checked(one, `value ${i + 1}`),
    );
  const lines = text.split('\n');
  return lines.flatMap((line, i) => {
    if (line.trim() === '') return [];
    const one = parsed(line);
    return one.ok ? [checked(one.value, `line ${i + 1}`)] : [{ at: `line ${i + 1}`, read: fail(notJson(line, i + 1)) }];
  });
}

function checked(value: unknown, at: string): JsonProtocol {
  const read = readProtocol(value);
  return { at, read: read.ok ? ok(writeProtocol(read.value)) : fail({ ...read.error, at: `${at}: ${read.error.at}` }) };
}

function parsed(text: string): Result<unknown, null> {
  try {
    return ok(JSON.parse(text) as unknown);
  } catch {
    return fail(null);
  }
}

const notJson = (line: string, number: number): Problem => ({
  code: 'intake.json',
  at: `line ${number}`,
  found: line.trim().slice(0, 60),
  expected: 'a protocol as JSON',
  advice: 'Correct this line; the others are read.',
});
