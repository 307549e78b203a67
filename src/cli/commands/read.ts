import type { Command } from 'commander';

import { ok, type Result } from '../../notation/index.ts';
import {
  layoutFor,
  layoutNotUsed,
  printReading,
  read,
  readingForm,
  readTold,
  REFERENCE_KINDS,
  toldOf,
  VOICES,
  type Reading,
  type ReferenceKind,
  type ToldSheet,
  type Voice,
} from '../../reading/index.ts';
import { readLayout, readProtocol, type Layout, type Protocol } from '../../scoring/index.ts';
import { allValues } from '../all-values.ts';
import { answerEach, type Answer } from '../answer-each.ts';
import { eventFields, type EventFields } from '../event-fields.ts';
import { UsageError, type Io } from '../io.ts';
import { otherSeasons, ruleChooser, type RuleChooser } from '../rules.ts';
import { readingDoubt, readSheets } from '../sheets.ts';

interface Flags {
  readonly json?: boolean;
  readonly rulebook?: string;
  readonly layout?: string;
  readonly history?: string;
  readonly reference?: string;
  readonly told?: string;
  readonly for?: string;
}

/** `edgeledger read FILE`: where every hundredth went, what the letters prove, what to train. */
export function register(program: Command, io: Io): void {
  program
    .command('read')
    .description('explain a protocol: points by cause, what the letters prove, what to train')
    .argument('<file>', 'protocols as JSON, JSON Lines or a pasted sheet; - for standard input')
    .option('--layout <file>', 'planned layout, or several')
    .option('--history <file>', 'her earlier protocols')
    .option('--told <file>', 'what the panel told about elements, used as evidence beside the letters')
    .option('--reference <kind>', `what to compare with: ${REFERENCE_KINDS.join(', ')}`)
    .option('--for <who>', `who reads it: ${VOICES.join(', ')}`, 'coach')
    .option('--json', 'one compact JSON value per protocol')
    .option('--rulebook <id>', 'use this rulebook')
    .action(async (file: string, flags: Flags) => {
      const rules = ruleChooser(flags.rulebook);
      const basis = await basisOf(flags, io);
      const once = await eventFields(file, io, readSheets, rules);
      const settings = { json: flags.json === true, other: once.other };
      await answerEach(once.io, file, settings, (value) => readValue(value, basis, once, rules, io));
    });
}

/** What all readings of one run share. */
interface Basis {
  readonly voice: Voice;
  readonly reference: ReferenceKind | undefined;
  readonly layouts: readonly Layout[];
  readonly history: readonly Protocol[] | undefined;
  readonly told: readonly ToldSheet[];
}

async function basisOf(flags: Flags, io: Io): Promise<Basis> {
  const voice = oneOf(VOICES, flags.for ?? 'coach', '--for');
  const reference = flags.reference === undefined ? undefined : oneOf(REFERENCE_KINDS, flags.reference, '--reference');
  if (reference === 'layout' && flags.layout === undefined)
    throw new UsageError('--reference layout needs a planned layout: add --layout FILE.');
  return {
    voice,
    reference,
    layouts: flags.layout === undefined ? [] : await allValues(flags.layout, io, readLayout),
    history: flags.history === undefined ? undefined : await allValues(flags.history, io, readProtocol, readSheets),
    told: flags.told === undefined ? [] : await allValues(flags.told, io, readTold),
  };
}

function oneOf<T extends string>(words: readonly T[], given: string, flag: string): T {
  const found = words.find((word) => word === given);
  if (found === undefined) throw new UsageError(`${flag} ${given} is not known: ${words.join(', ')}.`);
  return found;
}

function readValue(value: unknown, basis: Basis, fields: EventFields, rules: RuleChooser, io: Io): Result<Answer> {
  const protocol = readProtocol(value);
  if (!protocol.ok) return protocol;
  const chosen = rules.choose(protocol.value);
  if (!chosen.ok) return chosen;
  const scale = chosen.value.values.values.goe;
  const doubt = readingDoubt(value);
  const notes = [layoutNotUsed(basis.layouts, protocol.value), doubt?.warning ?? null].filter((note) => note !== null);
  const plain = read(protocol.value, chosen.value, {
    layout: layoutFor(basis.layouts, protocol.value),
    history: basis.history?.filter((one) => sameScale(one, scale, rules)),
    reference: basis.reference,
    field: fields.of(protocol.value),
    told: toldOf(basis.told, protocol.value),
    otherSeasons: () => otherSeasons(rules.library, chosen.value.values),
  });
  const reading = { ...plain, warnings: [...plain.warnings, ...notes] };
  return ok({
    json: readingForm(reading, basis.voice),
    text: () => `${printReading(reading, { voice: basis.voice, width: io.width, colour: io.colour })}\n`,
    act: needsAction(reading) || doubt?.figures === true,
  });
}

/** Grades of another scale cannot be compared with today's. */
function sameScale(
  earlier: Protocol,
  scale: { readonly min: number; readonly max: number },
  rules: RuleChooser,
): boolean {
  const chosen = rules.choose(earlier);
  if (!chosen.ok) return false;
  const { min, max } = chosen.value.values.values.goe;
  return min === scale.min && max === scale.max;
}

const needsAction = (reading: Reading): boolean =>
  reading.findings.length > 0 || reading.feedback.some((entry) => !entry.consistent);
