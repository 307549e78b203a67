import type { Category, Segment } from '../../notation/index.ts';

/** An invented skater of the demo season. Every name, place and figure here is made up. */
export interface DemoSkater {
  readonly id: string;
  readonly name: string;
  readonly category: Category;
  readonly body: 'isu' | 'us';
  /** Planned elements with their start in seconds, by segment. */
  readonly programs: Readonly<Partial<Record<Segment, readonly (readonly [code: string, start: number])[]>>>;
  /** Usual panel grade, usual component mark in quarters of a point, chance that a jump stands. */
  readonly usual: { readonly grade: number; readonly component: number; readonly stands: number };
  /** Printed where the rulebook does not know the factors. */
  readonly factors: Readonly<Record<Segment, number>>;
  readonly steps: string;
  readonly habit: string;
  /** A second version of the free skate that the coach is trying: element by start time. */
  readonly draft?: readonly (readonly [code: string, start: number])[];
}

export const DEMO_SEASON = '2025/26';
/** The demo is looked at on this day, so that it always has a past and a future. */
export const DEMO_TODAY = '2025-12-03';

export const CAST: readonly DemoSkater[] = [
  {
    id: 'demo-pia',
    name: 'Pia',
    category: 'juvenile women',
    body: 'us',
    programs: {
      free: [
        ['2S', 10],
        ['1A+2T', 24],
        ['CCoSp2', 40],
        ['2Lo', 58],
        ['StSq1', 72],
        ['2F', 96],
        ['2T+1Lo', 110],
        ['LSp2', 128],
      ],
    },
    usual: { grade: -0.2, component: 11, stands: 0.72 },
    factors: { short: 1.33, free: 1.7 },
    steps: 'LFO rocker, / RFI bracket, / LFO three, LBI bracket, / RFO counter',
    habit: 'Two run-throughs with music every week, from start to end',
  },
  {
    id: 'demo-linus',
    name: 'Linus',
    category: 'intermediate men',
    body: 'us',
    programs: {
      free: [
        ['2A', 12],
        ['2F+2T', 28],
        ['FSSp2', 44],
        ['2Lz', 62],
        ['StSq2', 78],
        ['2Lo+2Lo', 104],
        ['2A', 118],
        ['CCoSp3', 136],
      ],
    },
    usual: { grade: 0, component: 14, stands: 0.74 },
    factors: { short: 1.5, free: 2 },
    steps: 'LFO rocker, LBO counter, LFO bracket / RFI loop, RFI bracket, RBO rocker / LFI counter',
    habit: 'Write the log after every run-through',
  },
  {
    id: 'demo-mara',
    name: 'Mara',
    category: 'novice women',
    body: 'us',
    programs: {
      short: [
        ['2A', 12],
        ['3S', 28],
        ['2Lz+2T', 46],
        ['LSp3', 66],
        ['StSq3', 86],
        ['CCoSp3', 120],
      ],
      free: [
        ['3S', 12],
        ['2A+2T', 28],
        ['FCSp3', 46],
        ['2Lz+2T+2Lo', 66],
        ['StSq3', 84],
        ['2A', 114],
        ['2F', 128],
        ['2Lo', 142],
        ['CCoSp3', 160],
      ],
    },
    usual: { grade: 0.2, component: 18, stands: 0.76 },
    factors: { short: 1.07, free: 2.13 },
    steps:
      'LFO rocker, LBO counter, LFO twizzle / RBI bracket, RFO rocker, RBO loop, RBO choctaw, LFI loop, LFI twizzle / LBO choctaw, RFI bracket / RBO counter',
    habit: 'Three full run-throughs a week',
  },
  {
    id: 'demo-juna',
    name: 'Juna',
    category: 'junior women',
    body: 'isu',
    programs: {
      short: [
        ['2A', 12],
        ['3Lo', 30],
        ['3T+2T', 46],
        ['FSSp4', 66],
        ['LSp4', 84],
        ['StSq3', 102],
        ['CCoSp4', 136],
      ],
      free: [
        ['3F+2T', 14],
        ['3Lo', 30],
        ['2A', 48],
        ['FSSp4', 66],
        ['3S', 86],
        ['ChSq1', 100],
        ['3T+2T+2Lo', 118],
        ['3F', 138],
        ['CCoSp4', 156],
        ['2A+2Lo', 176],
        ['LSp4', 192],
      ],
    },
    usual: { grade: 0.5, component: 22, stands: 0.78 },
    factors: { short: 1.33, free: 2.67 },
    steps:
      'LFO rocker, LBO counter, LFO twizzle / RBI bracket, RFO rocker, RBO loop, RBO choctaw, LFI loop, LFI twizzle / LBO choctaw, RFI bracket / RBO counter',
    habit: 'Four run-throughs a week, two of them tired',
  },
  {
    id: 'demo-viktor',
    name: 'Viktor',
    category: 'senior men',
    body: 'isu',
    programs: {
      short: [
        ['3A', 14],
        ['3Lz+3T', 34],
        ['FCSp4', 56],
        ['3F', 82],
        ['CSSp4', 100],
        ['StSq3', 114],
        ['CCoSp4', 144],
      ],
      free: [
        ['3A+2T', 16],
        ['3Lz+3T', 36],
        ['3F', 56],
        ['FCSp4', 76],
        ['StSq3', 96],
        ['3Lo', 124],
        ['3A', 142],
        ['3Lz+1Eu+3S', 160],
        ['ChSq1', 178],
        ['2A', 196],
        ['CSSp4', 210],
        ['CCoSp4', 226],
      ],
    },
    usual: { grade: 0.8, component: 27, stands: 0.8 },
    factors: { short: 1.67, free: 3.33 },
    steps:
      'LFO rocker, LBO counter, LFO twizzle / RBI bracket, RFO rocker, RBO loop, RBO choctaw, LFI loop, LFI twizzle / LBO choctaw, RFI bracket / RBO counter',
    habit: 'One run-through a week exactly as on the day, with warm-up and bow',
    // Three kinds of triple twice: the version he would like, for the rules to speak.
    draft: [['3F', 196]],
  },
];

export interface DemoEvent {
  readonly id: string;
  readonly name: string;
  readonly date: string;
  readonly judges: number;
  readonly video: 'yes' | 'no';
  readonly purpose: 'try-out' | 'counts' | 'peak';
  readonly skaters: readonly string[];
  readonly deadlines: readonly (readonly [what: string, date: string])[];
  readonly freeze: string | null;
}

const EVERYBODY = CAST.map((s) => s.id);
const OLDER = ['demo-mara', 'demo-juna', 'demo-viktor'];

export const EVENTS: readonly DemoEvent[] = [
  {
    id: 'demo-e1',
    name: 'Sawmill Rink Opening',
    date: '2025-09-06',
    judges: 3,
    video: 'no',
    purpose: 'try-out',
    skaters: EVERYBODY,
    deadlines: [],
    freeze: null,
  },
  {
    id: 'demo-e2',
    name: 'Heron Bay Trophy',
    date: '2025-09-20',
    judges: 5,
    video: 'yes',
    purpose: 'counts',
    skaters: OLDER,
    deadlines: [],
    freeze: null,
  },
  {
    id: 'demo-e3',
    name: 'Lantern Cup',
    date: '2025-10-04',
    judges: 5,
    video: 'no',
    purpose: 'counts',
    skaters: EVERYBODY,
    deadlines: [],
    freeze: null,
  },
  {
    id: 'demo-e4',
    name: 'Two Rivers Open',
    date: '2025-10-18',
    judges: 5,
    video: 'yes',
    purpose: 'counts',
    skaters: OLDER,
    deadlines: [],
    freeze: null,
  },
  {
    id: 'demo-e5',
    name: 'Copper Hill Classic',
    date: '2025-11-08',
    judges: 7,
    video: 'yes',
    purpose: 'counts',
    skaters: EVERYBODY,
    deadlines: [],
    freeze: null,
  },
  {
    id: 'demo-e6',
    name: 'Juniper Invitational',
    date: '2025-11-29',
    judges: 7,
    video: 'yes',
    purpose: 'counts',
    skaters: EVERYBODY,
    deadlines: [],
    freeze: null,
  },
  {
    id: 'demo-e7',
    name: 'Winter Bridge Cup',
    date: '2025-12-13',
    judges: 5,
    video: 'yes',
    purpose: 'counts',
    skaters: EVERYBODY,
    deadlines: [
      ['planned content due', '2025-12-06'],
      ['music due', '2025-12-09'],
    ],
    freeze: '2025-12-10',
  },
  {
    id: 'demo-e8',
    name: 'North Shore Qualifier',
    date: '2026-01-10',
    judges: 9,
    video: 'yes',
    purpose: 'peak',
    skaters: OLDER,
    deadlines: [['entries close', '2025-12-20']],
    freeze: '2026-01-03',
  },
];
