import type { Command } from 'commander';

import { answerEach } from '../answer-each.ts';
import { UsageError, type Io } from '../io.ts';

interface Flags {
  readonly rulebook?: string;
  readonly history?: string;
  readonly json?: boolean;
}

/** `edgeledger compare A B`: what differs between two layouts, and how often A beats B. */
export function register(program: Command, io: Io): void {
  program
    .command('compare')
    .description('two layouts: what differs, and how often A beats B')
    .argument('<a>', 'a file with one or more layouts; - is standard input')
    .argument('<b>', 'a file with the layout to compare with')
    .option('--rulebook <id>', 'rules for both, e.g. isu/2025-26')
    .option('--history <file>', 'her earlier protocols, for what the layouts do not state')
    .option('--json', 'one compact JSON value per layout of A')
    .action(async (a: string, b: string, { rulebook, history, json }: Flags) => {
      const { compare, compareJson, compareText, rulesFor } = await import('../../programs/index.ts');
      const { readLayout } = await import('../../scoring/index.ts');
      const { ok } = await import('../../notation/index.ts');
      const { allValues } = await import('../all-values.ts');
      const { evidenceFrom } = await import('./program-evidence.ts');
      const { libraryInUse } = await import('../overlays.ts');
      const [second, ...more] = await allValues(b, io, readLayout);
      if (second === undefined || more.length > 0) throw new UsageError(`${b}: expected one layout to compare with.`);
      const rulesB = rulesFor(libraryInUse(), second, { rulebook });
      if (!rulesB.ok) throw new UsageError(`${b}: ${rulesB.error.found}; expected ${rulesB.error.expected}.`);
      const evidence = await evidenceFrom(history, io);
      await answerEach(io, a, { json: json === true }, (value) => {
        const first = readLayout(value);
        if (!first.ok) return first;
        const rulesA = rulesFor(libraryInUse(), first.value, { rulebook });
        if (!rulesA.ok) return rulesA;
        const result = compare(first.value, second, { a: rulesA.value, b: rulesB.value }, evidence(first.value));
        if (!result.ok) return result;
        return ok({ json: compareJson(result.value), text: () => compareText(result.value), act: false });
      });
    });
}
