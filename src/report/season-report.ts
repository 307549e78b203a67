import type { Hundredths } from '../rulebook/index.ts';
import { dayWords, text, type ReportPage } from './page.ts';

export interface SeasonEvent {
  readonly date: string;
  readonly event: string;
  readonly segment: 'short' | 'free';
  readonly total: Hundredths | null;
}

export interface SeasonReportInput {
  readonly name: string;
  readonly season: string;
  readonly events: readonly SeasonEvent[];
  readonly sentences: { readonly safer: string; readonly slipped: string; readonly fresh: string };
  readonly goalsMet: readonly string[];
  readonly goalsOpen: readonly string[];
  readonly goalsMoved: readonly string[];
  readonly words: string;
}

/** One page on a season: what stands, what is new, her own past only, goals met and moved. */
export function seasonReport(input: SeasonReportInput): ReportPage {
  const { safer, fresh } = input.sentences;
  return {
    title: `${input.name}, season ${input.season}`,
    meta: `${input.events.length} programs in front of judges`,
    rows: [
      ...(input.words.trim() === '' ? [] : [{ about: 'From your coach', blocks: [text(input.words.trim())] }]),
      { about: 'Safer now', blocks: [text(safer)] },
      { about: 'New', blocks: [text(fresh)] },
      { about: 'Goals met', blocks: listed(input.goalsMet, 'The season goes on.') },
      ...(input.goalsMoved.length === 0 ? [] : [{ about: 'Goals moved', blocks: listed(input.goalsMoved, '') }]),
      { about: 'On the way', blocks: listed(input.goalsOpen, 'The next goals come at the next lesson.') },
      { about: 'Programs', blocks: [{ kind: 'lines', lines: input.events.map(eventLine) }] },
    ],
    large: false,
    foot: 'Own past only, in order of date. Scores and places are not in our hands.',
  };
}

const listed = (lines: readonly string[], none: string) =>
  lines.length === 0 ? (none === '' ? [] : [text(none)]) : lines.map((l) => text(l));

const eventLine = (e: SeasonEvent): readonly [string, string] => [
  e.total === null ? '' : (e.total / 100).toFixed(2),
  [e.event, e.segment === 'free' ? 'free skate' : 'short program', dayWords(e.date)].filter(Boolean).join(', '),
];

export interface TargetsInput {
  readonly name: string;
  readonly weeks: string;
  readonly habits: readonly string[];
  readonly targets: readonly string[];
}

/** What to practise until the next event: habits first, then at most two targets; empty lines to tick by hand. */
export function practiceTargets(input: TargetsInput): ReportPage {
  return {
    title: `${input.name}, until ${input.weeks}`,
    meta: 'Practice targets',
    rows: [
      { about: 'Every week', blocks: listed(input.habits, 'Three full run-throughs with music.') },
      {
        about: 'Still to win',
        blocks: listed(input.targets.slice(0, 2), 'Your coach will tell you at your next lesson.'),
      },
      { about: 'Done', blocks: [{ kind: 'writing', lines: 6 }] },
    ],
    large: true,
    foot: 'How often is decided with your coach and your parents. If something hurts: stop and tell a parent and your coach.',
  };
}

export interface DaySkater {
  readonly name: string;
  readonly category: string;
  readonly programs: readonly { readonly segment: string; readonly codes: readonly string[] }[];
  readonly planB: readonly string[];
  readonly goal: string | null;
}

/** One sheet for the coach: all her skaters at an event, with layout, plan B and one goal each. */
export function daySheet(event: string, date: string, skaters: readonly DaySkater[]): ReportPage {
  return {
    title: event,
    meta: `Day sheet, ${dayWords(date)}`,
    rows: skaters.map((s) => ({
      about: s.name,
      blocks: [
        text(s.category, true),
        ...s.programs.map((p) => text(`${p.segment}: ${p.codes.join(' · ')}`)),
        ...s.planB.map((line) => text(`Plan B: ${line}`)),
        ...(s.goal === null ? [] : [text(`Today: ${s.goal}`)]),
      ],
    })),
    large: false,
    foot: 'For the coach. Not for the board.',
  };
}
