import { about, dateInWords, grade, points } from './numbers.ts';

import { levelNumber, type StepFeature } from '../levels/index.ts';
import { stepLimit } from './step-words.ts';
import type { Advice, LedgerEntry, ProgramNote, Reading, ReferenceKind } from './types.ts';

/** At most this many things to train, and never two for one jump. */
const MOST_TO_TRAIN = 2;
const MOST_WINS = 3;
/** Less than this is not worth a child's training time. */
const WORTH_TRAINING = 10;

/** The element of the program that an entry or a piece of advice speaks of. */
export function noteOf(evidence: readonly string[], program: readonly ProgramNote[]): ProgramNote | null {
  const at = evidence[0] ?? '';
  const index = /^elements\[(\d+)\]/.exec(at)?.[1];
  const planned = /^layout\.elements\[(\d+)\]/.exec(at)?.[1];
  return (
    program.find((note) =>
      index === undefined
        ? planned !== undefined && note.index === null && note.planned === Number(planned)
        : note.index === Number(index),
    ) ?? null
  );
}

/** Advice in words of doing for a reader of ten: at most two things, one per jump, deductions left aside. */
export function skaterAdvice(reading: Reading): Advice[] {
  const used = new Set<string>();
  const chosen: Advice[] = [];
  for (const advice of reading.advice) {
    const note = advice.at === null ? null : noteOf([advice.at], reading.program);
    const text = note === null ? null : doing(advice, note, reading);
    const key = note === null ? '' : trainedThing(note);
    if (text === null || note === null || used.has(key) || advice.points < WORTH_TRAINING) continue;
    used.add(key);
    chosen.push({ ...advice, text, rule: advice.rule, beside: [] });
    if (chosen.length === MOST_TO_TRAIN) break;
  }
  return chosen;
}

/** What two pieces of advice have in common: the first jump, the spin, the steps. */
const trainedThing = (note: ProgramNote): string =>
  note.kind === 'jump' ? ((note.plannedName ?? note.name).split(/,| and /)[0] ?? '') : note.name;

/** What to do, in a sentence or two; null where nothing can be trained. */
function doing(advice: Advice, note: ProgramNote, reading: Reading): string | null {
  const worth = `Still to win: ${about(advice.points)}${advice.atLeast ? ' or more' : ''}.`;
  const said = (name: string, act: string): string => `The ${name}. ${act} ${worth}`;
  switch (advice.cause) {
    case 'content':
      return said(note.plannedName ?? note.name, contentAct(note));
    case 'rotation':
      return said(note.mainName, 'Turn all the way round before you land.');
    case 'edge':
      return said(note.mainName, 'Hold your edge until the toe pick goes in.');
    case 'level':
      return said(
        note.name,
        note.kind === 'steps' ? stepAct(note, reading) : 'Hold each shape until you have counted to three.',
      );
    case 'V':
      return said(note.name, spinAct(note, reading));
    case 'fall':
      return said(note.name, fallAct(note));
    case 'execution':
      return executionAct(advice, note, reading, said);
    case 'repeat':
    case 'no-value':
      return said(note.name, 'Learn with your coach what to do here in the program.');
    case 'second-half':
    case 'deduction':
    case 'bonus':
    case 'components':
      return null;
  }
}

/** A call whose obliged grades are not known has its grades here: then the call is what to train. */
function executionAct(
  advice: Advice,
  note: ProgramNote,
  reading: Reading,
  said: (name: string, act: string) => string,
): string {
  const open = reading.ledger.filter((one) => one.no === advice.no && one.grades?.min === null).map((one) => one.cause);
  if (open.includes('rotation')) return said(note.mainName, 'Turn all the way round before you land.');
  if (open.includes('edge')) return said(note.mainName, 'Hold your edge until the toe pick goes in.');
  return said(note.name, 'Hold the end of it while you count to two.');
}

function contentAct(note: ProgramNote): string {
  if (note.index === null) return 'Know where it comes, also when something before it changes.';
  if (note.change === 'missing-partner') return 'Go straight from the first landing into the next jump.';
  if (note.change === 'fewer-turns') return 'Stay closed and turn all the way round before you come down.';
  return 'Skate it the way you planned it with your coach.';
}

const fallAct = (note: ProgramNote): string =>
  note.kind === 'jump'
    ? 'Land on a strong, bent knee and hold it while you count to two.'
    : 'Keep your weight over your skating foot from beginning to end.';

/** What level and letters prove was missing; where they leave it open, the turns themselves. */
function stepAct(note: ProgramNote, reading: Reading): string {
  const explanations = reading.feedback.find((entry) => entry.index === note.index)?.explanations ?? [];
  const limit = note.level === null ? null : stepLimit(explanations, note.level);
  const feature = limit?.features === 'proved' ? limit.missing.at(-1) : undefined;
  if (feature !== undefined) return FEATURE_ACTS[feature];
  return limit?.turns === 'proved' ? moreTurnsAct(levelNumber(note.level ?? 'B')) : CLEAN_TURNS;
}

const CLEAN_TURNS = 'Do each turn with a clean edge in and a clean edge out.';

const FEATURE_ACTS: Readonly<Record<StepFeature, string>> = {
  rotation: 'Turn your whole body to the left and to the right, each for a third of the way.',
  body: 'Move your arms, your head and your back with the steps, for a third of the way or more.',
  clusters: 'Do three hard turns in a row on one foot, then three in a row on the other foot.',
};

/** From below level 1 the way is longer than two turns; level 4 asks for both directions. */
function moreTurnsAct(level: number): string {
  if (level === 0) return 'Add hard turns one at a time, each with a clean edge in and a clean edge out.';
  if (level === 3) return 'Do every kind of hard turn both ways, to the left and to the right.';
  return 'Do one or two more turns with a clean edge in and a clean edge out.';
}

function spinAct(note: ProgramNote, reading: Reading): string {
  const position = reading.feedback.find((entry) => entry.index === note.index)?.missingPosition;
  if (position == null) return 'Ask your coach to look at this spin with you.';
  return `Turn round once more in the ${position} position, so that two in a row count.`;
}

/** What was more than her usual or her plan, best first; at most three sentences. */
export function skaterWins(reading: Reading): string[] {
  const sums = new Map<string, { readonly note: ProgramNote; readonly entries: LedgerEntry[] }>();
  for (const entry of reading.ledger.filter((one) => one.points > 0)) {
    const note = noteOf(entry.evidence, reading.program);
    if (note === null) continue;
    const key = String(note.index);
    sums.set(key, { note, entries: [...(sums.get(key)?.entries ?? []), entry] });
  }
  const components = reading.ledger.filter((entry) => entry.cause === 'components' && entry.points > 0);
  const total = (entries: readonly LedgerEntry[]) => entries.reduce((sum, one) => sum + one.points, 0);
  const elements = [...sums.values()]
    .sort((a, b) => total(b.entries) - total(a.entries))
    .map((one) => winSentence(one.note, reading.reference.kind));
  return [
    ...elements.slice(0, components.length > 0 ? MOST_WINS - 1 : MOST_WINS),
    ...(components.length > 0 ? ['How you skate between the jumps and to the music: the marks went up.'] : []),
  ];
}

/** The grade itself is told where it is one to be glad of. */
function winSentence(note: ProgramNote, kind: ReferenceKind): string {
  const than = { layout: 'than planned', usual: 'than before', clean: 'than before' }[kind];
  const isHigher = note.grade !== null && note.grade > note.referenceGrade;
  const went =
    isHigher && note.grade > 0
      ? `the judges gave it ${grade(note.grade)}${kind === 'clean' ? '' : `, more ${than}`}`
      : `it went better ${than}`;
  const more = note.level !== null && levelNumber(note.level) > levelNumber(note.referenceLevel ?? 'B');
  return `Your ${note.name}: ${went}.${more ? ` It got level ${String(note.level)}.` : ''}`;
}

/** The first lines of her page, and its last. */
export const skaterTitle = ({ head }: Reading): string => {
  const program = head.segment === 'free' ? 'free skate' : 'short program';
  const where = head.competition === null ? '' : ` at ${head.competition}`;
  return `${head.skater === null ? 'Y' : `${head.skater}, y`}our ${program}${where}`;
};

export const skaterDate = ({ head }: Reading): string => (head.date === null ? head.season : dateInWords(head.date));

export const skaterEnd = (reading: Reading): string =>
  `The score of the day was ${points(reading.awarded.total)}. Score and place are not in our hands. Judges do not publish reasons for a grade; calls and levels stand.`;

export const HOW_WE_TRAIN =
  'You and your coach decide together how and how often. If something hurts, stop and tell a parent and your coach.';
