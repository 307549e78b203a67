import type { Pronouns } from '../../../src/notation/index.ts';

const counted = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

/** Words of the room Layout. Functions take numbers that are formatted already, and whole phrases. */
export const layoutWords = {
  oneCodeUnread: 'One code cannot be read yet.',
  noRules: 'No rules could be chosen for this category.',
  broken: (n: number) => (n === 0 ? 'Nothing is broken.' : n === 1 ? 'One rule is broken.' : `${n} rules are broken.`),
  unknown: (n: number) => `${counted(n, 'rule is', 'rules are')} not known: check your chart.`,
  free: 'free skate',
  short: 'short program',

  moved: (code: string, to: string) => `${code} moved to ${to}.`,
  changed: (from: string, to: string) => `${from} changed to ${to}.`,
  takenOut: (code: string) => `${code} taken out.`,
  added: (code: string) => `${code} added.`,
  mended: (what: string) => `Mended: ${what}.`,
  reliabilitySet: (code: string, days: string) => `${code} comes off ${days}.`,
  reliabilityLearnt: (code: string) => `${code}: as learnt again.`,
  practiceOn: 'Run-throughs are used.',
  practiceOff: 'Run-throughs are not used.',

  computing: 'Computing the range from the sheets and this layout.',
  elementsAlone: 'Elements alone.',
  whyElementsAlone:
    'The factors of the components are not known for this category: a sheet that prints them gives the total.',
  segmentTotal: 'segment total',
  elementsOnly: 'elements alone',
  target: 'A target, in points',
  noChanceYet: 'No chance is given before three protocols of this segment.',
  usually: 'Usually between',
  and: 'and',
  halfOfDays: (low: string, high: string, middle: string) =>
    `; half of all days between ${low} and ${high}, the middle at ${middle}. A day outside is normal.`,
  orMore: (points: string, days: string) => `${points} or more ${days}`,

  comesOff: 'How often it comes off',
  inCompetition: 'in competition, as planned, in days of twenty',
  comesOffIntro:
    'Move a slider: the range above follows. What you enter replaces what was learnt; everything else that may happen keeps its proportions.',
  sliderLabel: (code: string, at: string) => `${code} at ${at}, days of twenty as planned`,
  asEntered: 'as you entered',
  asLearnt: 'as learnt',
  backToLearnt: 'As learnt',
  backToLearntLabel: (code: string) => `${code}: as learnt again`,
  oneWay: 'You entered one way for it: nothing to move.',
  usePractice: 'Use run-throughs',
  noPractice: 'No run-through is logged yet that fits this layout.',
  practiceNote: (n: number) =>
    `${counted(n, 'run-through is', 'run-throughs are')} logged. Used, each of the last twelve counts as a quarter of a competition, for jumps alone (common practice, no source).`,

  spreadFrom: (names: readonly string[]) => `Most of the spread comes from ${names.join(', then ')}.`,
  spreadEven: 'No element stands out: the spread comes from all alike.',
  oneDayMore: (name: string, points: string) =>
    `One more day of twenty moves the range most on ${name}: about ${points} points.`,
  workingOut: 'Working out what moves it most.',
  partOfSpread: (share: string) => `${share} of ten parts of the spread`,

  mend: 'Mend',
  mending: 'Looking for the smallest change.',
  noWay: (p: Pronouns) =>
    `No change of one or two elements mends it, out of ${p.hersOf} own elements and easier forms. Change the elements below.`,
  applyMend: 'Do it',
  mendsAll: 'then nothing is broken',
  stillBroken: (n: number) => `${counted(n, 'rule stays', 'rules stay')} broken`,
  baseBy: (points: string) => `base values as called ${points}`,
  addsJump: 'Adds a jump: more attempts a week. Decide with coach, parents and, in pain or growth, medical staff.',
  leaveIt: 'Leave it',

  inRunThroughs: (p: Pronouns) => `Elements that are in ${p.hersOf} run-throughs, each as often as it may be used`,
  howMany: 'Layouts shown',
  trying: (elements: number) => `Trying the legal layouts of ${counted(elements, 'element', 'elements')}.`,
  seconds: (n: string) => `${n} seconds so far`,
  stop: 'Stop and keep the best so far',
  bestSoFar: 'Best so far',
  atMost: (bound: string) => `no legal layout of these entries brings more than ${bound}`,
  noneYet: 'No legal layout found yet.',
  stopped: 'Stopped.',
  bestOf: 'Best of the elements and reliabilities you entered, by this model',
  closed: 'No legal layout of these entries is better by this model.',
  open: (bound: string | null) =>
    bound === null
      ? 'The search was not closed: another layout may be better.'
      : `The search was not closed: another layout may be better, but none brings more than ${bound}.`,
  safest: 'It is also the safest: no other holds more on the worse days.',
  others: 'The next ones, and what each gives up',

  caution: 'Late jumps and added jump attempts: decide with coach, parents and, in pain or growth, medical staff.',
} as const;
