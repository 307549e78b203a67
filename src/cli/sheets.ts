import { readSheet } from '../intake/index.ts';
import { nodeSources } from '../intake/node.ts';
import { fail, ok } from '../notation/index.ts';
import { shippedLibrary } from '../rulebook/index.ts';
import { readYaml, type InputValue } from './values.ts';

/**
 * Reads protocols from what is not JSON: every form of sheet that `intake` knows, else YAML. What a
 * sheet leaves in doubt is for `intake` to show; here its best reading counts.
 */
export async function* readSheets(bytes: Buffer, name: string): AsyncGenerator<InputValue> {
  let read = 0;
  const troubles: InputValue[] = [];
  for await (const item of readSheet({ bytes, name }, { library: shippedLibrary(), ...nodeSources })) {
    if ('sheet' in item) {
      read++;
      yield { line: lineOf(item.sheet.from), read: ok(item.sheet.protocol) };
    } else troubles.push({ line: lineOf(item.problem.at), read: fail(placed(item.problem, name)) });
  }
  const yaml = read === 0 ? (await readYaml(bytes, name)).filter((value) => value.read.ok && isForm(value.read.value)) : [];
  yield* yaml.length > 0 ? yaml : troubles;
}

const isForm = (value: unknown): boolean => typeof value === 'object' && value !== null && 'elements' in value;
const lineOf = (at: string): number => Number(/(?:line|row) (\d+)/.exec(at)?.[1] ?? 1);
const placed = <P extends { readonly at: string }>(problem: P, name: string): P => (problem.at === 'file' ? { ...problem, at: name } : problem);
