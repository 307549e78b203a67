import type { Command } from 'commander';

import { ok, type Result } from '../../notation/index.ts';
import { audit, auditAnswer, readProtocol } from '../../scoring/index.ts';
import { answerEach, type Answer } from '../answer-each.ts';
import { auditText } from '../audit-text.ts';
import type { Io } from '../io.ts';
import { otherSeasons, ruleChooser, type RuleChooser } from '../rules.ts';
import { readSheets } from '../sheets.ts';

/** `edgeledger audit FILE`: does every printed figure agree with codes, calls, marks and factors? */
export function register(program: Command, io: Io): void {
  program
    .command('audit')
    .description('check every printed figure of a protocol against its codes, calls, marks and factors')
    .argument('<file>', 'protocols as JSON, JSON Lines or a pasted sheet; - for standard input')
    .option('--json', 'one compact JSON value per protocol')
    .option('--rulebook <id>', 'use this rulebook')
    .action(async (file: string, options: { json?: boolean; rulebook?: string }) => {
      const rules = ruleChooser(options.rulebook);
      const settings = { json: options.json === true, other: readSheets };
      await answerEach(io, file, settings, (value) => auditValue(value, rules, io));
    });
}

function auditValue(value: unknown, rules: RuleChooser, io: Io): Result<Answer> {
  const protocol = readProtocol(value);
  if (!protocol.ok) return protocol;
  const chosen = rules.choose(protocol.value);
  if (!chosen.ok) return chosen;
  const done = audit(protocol.value, chosen.value, {
    otherSeasons: () => otherSeasons(rules.library, chosen.value.values),
  });
  return ok({
    json: auditAnswer(done),
    text: () => auditText(protocol.value, done, chosen.value, io),
    act: done.findings.length > 0,
  });
}
