import type { Citation } from '../rulebook/index.ts';
import { toPoints } from '../scoring/index.ts';
import { cited } from './sources.ts';
import { skaterAdvice } from './skater-words.ts';
import type { Advice, FeedbackEntry, LedgerEntry, Reading, Scores, Voice } from './types.ts';

/**
 * The JSON form of a reading: points as numbers with at most two decimals. For the skater's voice the
 * advice is hers (at most two things), and field and panel questions stay with the coach.
 */
export function readingForm(reading: Reading, voice: Voice = 'coach') {
  const advice = voice === 'skater' ? skaterAdvice(reading) : reading.advice;
  return {
    id: reading.id,
    rulebook: reading.head.rulebook,
    awarded: scoresForm(reading.awarded),
    reference: { kind: reading.reference.kind, ...scoresForm(reading.reference) },
    difference: toPoints(reading.difference),
    ledger: reading.ledger.map(entryForm),
    feedback: reading.feedback.map((entry) => feedbackForm(entry, voice)),
    findings: reading.findings,
    advice: advice.map(adviceForm),
    ...(voice === 'coach' ? { questions: reading.questions, field: reading.field } : {}),
    warnings: reading.warnings,
  };
}

const scoresForm = ({ tes, pcs, deductions, total }: Scores) => ({
  tes: toPoints(tes),
  pcs: toPoints(pcs),
  deductions: toPoints(deductions),
  total: toPoints(total),
});

const entryForm = ({ points, winBack, ...entry }: LedgerEntry) => ({
  no: entry.no,
  element: entry.element,
  cause: entry.cause,
  points: toPoints(points),
  winBack: toPoints(winBack),
  evidence: entry.evidence,
  fieldOfPlay: entry.fieldOfPlay,
  ...(entry.grades === undefined ? {} : { grades: entry.grades }),
});

const feedbackForm = (entry: FeedbackEntry, voice: Voice) => ({
  no: entry.no,
  code: entry.code,
  letters: entry.letters,
  consistent: entry.consistent,
  explanations: entry.explanations,
  turns: entry.turns,
  complexity: entry.complexity,
  missingPosition: entry.missingPosition,
  conclusions: entry.conclusions,
  assumptions: entry.assumptions,
  notes: entry.notes,
  ...(voice === 'skater' || entry.told.length === 0 ? {} : { told: entry.told }),
  at: entry.at,
});

const adviceForm = ({ text, points, no, rule, sources, cause, atLeast, beside }: Advice) => ({
  text,
  points: toPoints(points),
  no,
  rule: [rule, ...sourceWords(sources)].join(' '),
  cause,
  atLeast,
  beside,
});

/** Each source once, with its mark. */
const sourceWords = (sources: readonly Citation[]): string[] =>
  sources.length === 0 ? [] : [`Source: ${[...new Set(sources.map(cited))].join('; ')}.`];
