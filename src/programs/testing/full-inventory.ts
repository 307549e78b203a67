import type { Inventory, LayoutElement, Outcome } from '../../scoring/index.ts';
import { entry, inventoryOf, pick, seeded } from './random-inventory.ts';

const SOLOS = ['3Lz', '3F', '3Lo', '3S', '3T', '2A', '3A', '2Lz', '2F', '4T', '4S'];
const UNITS = [
  '3Lz+3T',
  '3F+3T',
  '3Lz+2T',
  '3F+2T',
  '2A+3T',
  '2A+2T',
  '3S+2T',
  '3Lo+2T',
  '3S+3T',
  '3Lz+2Lo',
  '3F+2Lo',
  '3T+2T',
  '4T+3T',
  '3Lz+2T+2Lo',
  '3F+2T+2Lo',
  '2A+1Eu+3S',
  '3Lz+1Eu+3S',
  '3S+2A+SEQ',
];
const SPINS = ['CCoSp4', 'CCoSp3', 'FCSp4', 'FSSp4', 'LSp4', 'CSSp4', 'CCSp3', 'FCCoSp4'];
const OTHERS = ['StSq4', 'ChSq1'];

const SENIOR_FREE = { season: '2025/26', category: 'senior women', segment: 'free' } as const;

function shuffled<T>(list: readonly T[], random: () => number): readonly T[] {
  return list
    .map((one) => ({ one, at: random() }))
    .sort((a, b) => a.at - b.at)
    .map(({ one }) => one);
}

const grades = (random: () => number): Outcome['grades'] => {
  const grade = Math.round(random() * 40 - 10) / 10;
  return [
    { grade, p: 0.5 },
    { grade: Math.min(5, grade + 1), p: 0.5 },
  ];
};

const short = (code: string): string => {
  const [first = '', ...rest] = code.split('+');
  return [`${first}<`, ...rest].join('+');
};

const popped = (code: string): string => {
  const [first = '', ...rest] = code.split('+');
  return [`${Math.max(1, Number(first[0]) - 1)}${first.slice(1)}`, ...rest].join('+');
};

/** Outcomes that never change which jumps are counted: points simply add up. */
function calmOutcomes(code: string, random: () => number): readonly Outcome[] {
  const sure = 0.5 + 0.45 * random();
  return [
    { p: sure, code, grades: grades(random), fall: false },
    { p: 1 - sure, code: short(code), grades: [{ grade: -2, p: 1 }], fall: false },
  ];
}

/** Outcomes as they are: short, fallen on without a second jump, popped. */
function wildOutcomes(code: string, random: () => number): readonly Outcome[] {
  const sure = 0.55 + 0.4 * random();
  const rest = 1 - sure;
  return [
    { p: sure, code, grades: grades(random), fall: false },
    { p: rest * 0.4, code: short(code), grades: [{ grade: -2, p: 1 }], fall: false },
    { p: rest * 0.3, code: `${code.split('+')[0] ?? code}<`, grades: [{ grade: -5, p: 1 }], fall: true },
    { p: rest * 0.3, code: popped(code), grades: [{ grade: 0, p: 1 }], fall: false },
  ];
}

function other(code: string, random: () => number): LayoutElement {
  const sure = 0.5 + 0.4 * random();
  const lower = code.startsWith('ChSq') ? code : code.replace(/[34]$/, (l) => String(Number(l) - 1));
  return entry(code, [
    { p: sure, code, grades: grades(random), fall: false },
    { p: 1 - sure, code: lower, grades: [{ grade: 0, p: 1 }], fall: false },
  ]);
}

/**
 * A senior free skater's inventory of full size: 25 jump elements, 8 spins, 2 sequences. `calm`: no
 * outcome disturbs another element, so that a linear program can say what is best.
 */
export function fullInventory(seed: number, calm: boolean, jumps = 25): Inventory {
  const random = seeded(seed);
  const chosen = shuffled([...SOLOS, ...UNITS], random).slice(0, jumps);
  const axel = chosen.some((code) => code.includes('A')) ? [] : [pick(['2A', '3A'], random)];
  const outcomes = calm ? calmOutcomes : wildOutcomes;
  return inventoryOf(
    [
      ...[...axel, ...chosen].slice(0, jumps).map((code) => entry(code, outcomes(code, random))),
      ...[...SPINS, ...OTHERS].map((code) => other(code, random)),
    ],
    SENIOR_FREE,
  );
}
