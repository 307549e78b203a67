import type { ChosenRules } from '../rulebook/index.ts';
import { audit, type Audit, type AuditOptions, type Layout, type PanelRule, type Protocol } from '../scoring/index.ts';
import { adviceFor } from './advice.ts';
import { feedbackOf } from './feedback.ts';
import { fieldLines, judgesDiffered, type Field } from './field.ts';
import { findingsOf } from './findings.ts';
import { makeLedger } from './ledger.ts';
import type { Line, LedgerBasis } from './lines.ts';
import { programOf } from './program.ts';
import { questionsOf } from './questions.ts';
import { skatedElements, unreadLetters } from './skated.ts';
import type { FeedbackEntry, Reading, ReadingHead, ReferenceKind, ToldByPanel } from './types.ts';
import { earlierProtocols, usualOf } from './usual.ts';

/** What a reading may use beside the sheet. */
export interface ReadOptions {
  readonly layout?: Layout | null | undefined;
  /** Earlier protocols of the same scale of grades; later ones and other skaters' are passed over. */
  readonly history?: readonly Protocol[] | undefined;
  /** Absent: `layout` if one is given, else `usual` if a history is given, else `clean`. */
  readonly reference?: ReferenceKind | undefined;
  /** The event's other skaters. */
  readonly field?: Field | null | undefined;
  /** What the panel itself said, as evidence beside the letters. */
  readonly told?: readonly ToldByPanel[] | undefined;
  /** Rulebooks of other seasons, to recognise a base value taken from one of them. */
  readonly otherSeasons?: AuditOptions['otherSeasons'];
}

/**
 * A protocol explained: the account against its reference by cause, what the letters prove, what to
 * act on, what to train. Pure; the sum of the ledger is the difference, to the hundredth.
 */
export function read(protocol: Protocol, rules: ChosenRules, options: ReadOptions = {}): Reading {
  const { otherSeasons } = options;
  const audited = audit(protocol, rules, otherSeasons === undefined ? {} : { otherSeasons });
  const panel = audited.panel;
  const skated = skatedElements(protocol, audited);
  const { basis, warnings } = basisOf(protocol, panel, options);
  const ledger = makeLedger(protocol, skated, rules, panel, basis);
  const told = options.told ?? [];
  const feedback = feedbackOf(skated, rules, told);
  const { lines, entries } = ledger;
  return {
    id: protocol.id,
    head: headOf(protocol, rules),
    awarded: ledger.awarded,
    reference: { kind: basis.kind, ...ledger.reference },
    difference: ledger.awarded.total - ledger.reference.total,
    ledger: entries,
    feedback,
    findings: findingsOf(audited, lines, feedback, unreadLetters(protocol, audited)),
    advice: adviceFor({ protocol, rules, kind: basis.kind, lines, entries, feedback }),
    questions: questionsOf(lines, feedback),
    field: fieldLines(protocol, options.field ?? null, panel),
    spread: judgesDiffered(protocol),
    program: programOf(protocol, lines, panel),
    checked: figuresOf(protocol, audited),
    warnings: [
      ...new Set([
        ...protocol.warnings,
        ...audited.warnings,
        ...warnings,
        ...ledger.warnings,
        ...capWarnings(lines, rules),
        ...toldWarnings(told, feedback),
      ]),
    ],
  };
}

function basisOf(
  protocol: Protocol,
  panel: PanelRule,
  { layout = null, history, reference }: ReadOptions,
): { readonly basis: LedgerBasis; readonly warnings: readonly string[] } {
  const usual = history === undefined ? null : usualOf(earlierProtocols(history, protocol), panel);
  const wanted = reference ?? (layout === null ? (usual === null ? 'clean' : 'usual') : 'layout');
  if (wanted === 'layout' && layout === null)
    return {
      basis: { kind: usual === null ? 'clean' : 'usual', layout: null, usual },
      warnings: ['No layout fits this sheet: it is compared without one.'],
    };
  if (wanted === 'usual' && (usual === null || usual.programs === 0))
    return {
      basis: { kind: 'usual', layout: null, usual },
      warnings: ['No earlier protocol of this skater is given: levels and grades are those of the clean version.'],
    };
  return { basis: { kind: wanted, layout, usual }, warnings: [] };
}

/** Whatever was told and could not be used is said, so that nobody thinks it was. */
function toldWarnings(told: readonly ToldByPanel[], feedback: readonly FeedbackEntry[]): string[] {
  const heard = told.filter((one) => one.turns != null || one.missingPosition != null);
  return heard.flatMap(({ no }) => {
    const entry = feedback.find((one) => one.no === no);
    if (entry === undefined)
      return [`What the panel told about element ${no} narrows nothing: it has no level or letters to be explained.`];
    return entry.told.some((one) => one.used)
      ? []
      : [`What the panel told about element ${no} does not fit its level and letters; it is left out. Ask again.`];
  });
}

/** A highest level that nobody knows is taken as 4, and said. */
function capWarnings(lines: readonly Line[], rules: ChosenRules): string[] {
  const kinds = lines.flatMap((line) => (line.kind === 'both' ? [line.skated.element.kind] : []));
  const unknown = [
    ...(kinds.includes('steps') && rules.levels.steps(rules.category).cap === null ? ['step sequences'] : []),
    ...(kinds.includes('spin') && rules.levels.spins(rules.category).cap === null ? ['spins'] : []),
  ];
  return unknown.map(
    (what) => `The highest level of ${what} is not known for ${rules.category}: 4 is taken where a level is needed.`,
  );
}

const headOf = (protocol: Protocol, rules: ChosenRules): ReadingHead => ({
  skater: protocol.skater,
  competition: protocol.competition,
  date: protocol.date,
  season: protocol.season ?? rules.values.season,
  category: rules.category,
  segment: rules.segment,
  rulebook: rules.id,
  judges: Math.max(0, ...protocol.elements.map((one) => one.marks.length)),
  provisional: rules.values.provisional,
});

/** Printed figures that the audit could compare: where it knows no figure of its own, none was compared. */
function figuresOf(protocol: Protocol, audited: Audit): number {
  const pairs = [
    ...protocol.elements.flatMap((printed, i) => {
      const own = audited.elements[i];
      return [
        [printed.base, own?.base],
        [printed.goe, own?.goe],
        [printed.score, own?.score],
      ];
    }),
    ...protocol.components.map((printed, i) => [printed.score, audited.components[i]?.score]),
    [protocol.tes, audited.tes],
    [protocol.pcs, audited.pcs],
    [protocol.total, audited.total],
  ];
  return pairs.filter(([printed, own]) => printed != null && own != null).length;
}
