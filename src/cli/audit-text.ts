import type { ChosenRules } from '../rulebook/index.ts';
import type { Audit, Finding, FindingKind, Protocol } from '../scoring/index.ts';
import type { Io } from './io.ts';
import { quiet, strong, wrapped } from './style.ts';

/** Possible input slips first: they are what most often goes wrong, and the soonest mended. */
const ORDER: readonly { readonly kind: FindingKind; readonly title: string }[] = [
  { kind: 'slip', title: 'Possible input slip: ask the referee now' },
  { kind: 'calculation', title: 'These printed figures do not agree' },
  { kind: 'rule', title: "Not on this season's scale" },
  { kind: 'unreadable', title: 'Could not be read with certainty' },
  { kind: 'method', title: 'Off by 0.01, and may be right: the order of averaging is not established' },
];

/** A referee has other documents than a coach's overlay: there is nothing to ask her. */
const OWN = 'Against values of your own, so nothing to ask the referee';

/**
 * The audit for people: one quiet line when all agrees, else the disagreements by class, never the
 * sheet again. Figures that only add a wrong one are named in one line beneath it.
 */
export function auditText(
  protocol: Protocol,
  audit: Audit,
  rules: ChosenRules,
  io: Pick<Io, 'colour' | 'width'> & { readonly isWhole?: boolean },
): string {
  const name = nameOf(protocol);
  const warnings = audit.warnings.map((warning) => quiet(wrapped(warning, io.width, '  Note: ', '  '), io));
  if (audit.findings.length === 0)
    return [quiet(`${name}: ${agreeing(protocol, audit, io.isWhole !== false)}`, io), ...warnings].join('\n');
  const shared = ORDER.flatMap(({ kind, title }) =>
    classText(title, audit, io, (finding) => finding.kind === kind && finding.ownValue === undefined),
  );
  const classes = [...shared, ...classText(OWN, audit, io, (finding) => finding.ownValue !== undefined)];
  return [strong(name, io), ...classes, ...closing(audit, rules, io), ...warnings, ''].join('\n');
}

function nameOf(protocol: Protocol): string {
  const parts = [protocol.id, protocol.skater, protocol.competition, protocol.category, protocol.segment];
  const named = [...new Set(parts.filter((part) => part !== null))];
  return named.length === 0 ? 'This protocol' : named.join(', ');
}

/** Says what was checked; a sheet that prints no total, or was not read in full, is not said to be right. */
function agreeing(protocol: Protocol, audit: Audit, isWhole: boolean): string {
  if (!isWhole) return 'what was read for certain agrees, but not all of it was: see the note.';
  if (audit.total === null) return 'what is printed agrees.';
  const total = (audit.total / 100).toFixed(2);
  return protocol.total === null
    ? `what is printed agrees; no segment score is printed, the figures make ${total}.`
    : `all figures agree, total ${total}.`;
}

function classText(
  title: string,
  audit: Audit,
  io: Pick<Io, 'colour' | 'width'>,
  belongs: (finding: Finding) => boolean,
): readonly string[] {
  const own = audit.findings.filter((finding) => belongs(finding) && finding.follows === undefined);
  if (own.length === 0) return [];
  return ['', `${title}:`, ...own.flatMap((finding) => findingText(finding, audit, io))];
}

function findingText(finding: Finding, audit: Audit, io: Pick<Io, 'colour' | 'width'>): readonly string[] {
  const slip = finding.slip === undefined || finding.kind === 'slip' ? '' : ` That would be: ${finding.slip}.`;
  const after = audit.findings.filter((other) => other.follows === finding.at).map((other) => other.at);
  const follows = after.length === 0 ? '' : ` It goes on into ${[...new Set(after.map(placeInWords))].join(', ')}.`;
  return [wrapped(`${finding.message}${slip}${follows}`, io.width, '  - ', '    ')];
}

/** `elements[2].score` as people say it. */
function placeInWords(at: string): string {
  if (at.startsWith('elements')) return 'its score';
  if (at === 'tes') return 'the total element score';
  return at === 'pcs' ? 'the total component score' : 'the total';
}

/** Whether anything is for the referee: a reading trouble is for the person who typed the sheet. */
function closing(audit: Audit, rules: ChosenRules, io: Pick<Io, 'width'>): readonly string[] {
  const kinds = new Set(audit.findings.flatMap(({ kind, ownValue }) => (ownValue === undefined ? [kind] : [])));
  if (!kinds.has('calculation') && !kinds.has('slip')) return [];
  return ['', wrapped(ASK, io.width, '  '), ...protestHint(rules, io)];
}

const ASK =
  "Please compare with the printed sheet first, then ask the referee to check, as soon as possible, politely. Calls, levels and grades stand and cannot be protested. Your event's announcement and your federation's current rulebook decide who may ask, how, by when and for what fee.";

function protestHint(rules: ChosenRules, io: Pick<Io, 'width'>): readonly string[] {
  return rules.values.protests
    .filter((rule) => rule.open && rule.limit !== null)
    .filter((rule) => /calculat/i.test(rule.matter))
    .slice(0, 1)
    .map((rule) => wrapped(`One published limit: ${rule.limit ?? ''} (${rule.citation.source}).`, io.width, '  '));
}
