import type { Command } from 'commander';

import { ok, type Result } from '../../notation/index.ts';
import { layoutFor, layoutNotUsed } from '../../reading/index.ts';
import { audit, auditAnswer, readLayout, readProtocol, type Layout } from '../../scoring/index.ts';
import { allValues } from '../all-values.ts';
import { answerEach, type Answer } from '../answer-each.ts';
import { auditText } from '../audit-text.ts';
import type { Io } from '../io.ts';
import { otherSeasons, ruleChooser, type RuleChooser } from '../rules.ts';
import { readingDoubt, readSheets } from '../sheets.ts';

interface Flags {
  readonly json?: boolean;
  readonly rulebook?: string;
  readonly layout?: string;
}

/** `edgeledger audit FILE`: does every printed figure agree with codes, calls, marks and factors? */
export function register(program: Command, io: Io): void {
  program
    .command('audit')
    .description('check every printed figure of a protocol against its codes, calls, marks and factors')
    .argument('<file>', 'protocols as JSON, JSON Lines or a pasted sheet; - for standard input')
    .option('--json', 'one compact JSON value per protocol')
    .option('--rulebook <id>', 'use this rulebook')
    .option('--layout <file>', 'planned layout, or several: codes that differ are asked about')
    .action(async (file: string, options: Flags) => {
      const rules = ruleChooser(options.rulebook);
      const layouts = options.layout === undefined ? [] : await allValues(options.layout, io, readLayout);
      const settings = { json: options.json === true, other: readSheets };
      await answerEach(io, file, settings, (value) => auditValue(value, rules, layouts, io));
    });
}

function auditValue(value: unknown, rules: RuleChooser, layouts: readonly Layout[], io: Io): Result<Answer> {
  const protocol = readProtocol(value);
  if (!protocol.ok) return protocol;
  const chosen = rules.choose(protocol.value);
  if (!chosen.ok) return chosen;
  const doubt = readingDoubt(value);
  const notes = [layoutNotUsed(layouts, protocol.value), doubt?.warning ?? null].filter((note) => note !== null);
  const audited = audit(protocol.value, chosen.value, {
    otherSeasons: () => otherSeasons(rules.library, chosen.value.values),
    layout: layoutFor(layouts, protocol.value),
  });
  const done = { ...audited, warnings: [...audited.warnings, ...notes] };
  const isWhole = doubt?.figures !== true;
  return ok({
    json: auditAnswer(done),
    text: () => auditText(protocol.value, done, chosen.value, { ...io, isWhole }),
    // Figures that may be read wrong are something to look at, as a finding is.
    act: done.findings.length > 0 || !isWhole,
  });
}
