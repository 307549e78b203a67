import type { Command } from 'commander';

import { ok } from '../../notation/index.ts';
import { answerEach } from '../answer-each.ts';
import type { Io } from '../io.ts';

interface Flags {
  readonly rulebook?: string;
  readonly json?: boolean;
}

/** `edgeledger rescue LAYOUT`: what to do next when a jump goes wrong, as a card. */
export function register(program: Command, io: Io): void {
  program
    .command('rescue')
    .description('plan B: what to do next when a jump goes wrong, in sentences that can be remembered')
    .argument('<layout>', 'a layout: JSON, JSON Lines or YAML; - is standard input')
    .option('--rulebook <id>', 'rules, e.g. isu/2025-26')
    .option('--json', 'one compact JSON value per layout')
    .action(async (file: string, { rulebook, json }: Flags) => {
      const { rescue, rescueJson, rescueText, rulesFor } = await import('../../programs/index.ts');
      const { libraryInUse } = await import('../overlays.ts');
      const { readLayout } = await import('../../scoring/index.ts');
      await answerEach(io, file, { json: json === true }, (value) => {
        const layout = readLayout(value);
        if (!layout.ok) return layout;
        const rules = rulesFor(libraryInUse(), layout.value, { rulebook });
        if (!rules.ok) return rules;
        const result = rescue(layout.value, rules.value);
        if (!result.ok) return result;
        return ok({ json: rescueJson(result.value), text: () => rescueText(result.value), act: false });
      });
    });
}
