import { readFileSync } from 'node:fs';

/** The protocol as the JSON form has it (points as numbers); the truth that a sheet is printed from. */
export interface SheetProtocol {
  readonly id: string;
  readonly season: string;
  readonly competition: string;
  readonly category: string;
  readonly segment: 'short' | 'free';
  readonly skater: string;
  readonly rank: number;
  readonly startNumber: number;
  readonly elements: readonly SheetElement[];
  readonly components: readonly SheetComponent[];
  readonly deductions: number | readonly { readonly reason: string; readonly count: number; readonly points: number }[];
  readonly bonus?: number;
  readonly tes: number;
  readonly pcs: number;
  readonly total: number;
}

export interface SheetElement {
  readonly no: number;
  readonly code: string;
  readonly info: string;
  readonly feedback?: string;
  readonly half: boolean;
  readonly base: number;
  readonly goe: number;
  readonly marks: readonly (number | null)[];
  readonly score: number;
}

export interface SheetComponent {
  readonly name: string;
  readonly factor: number;
  readonly marks: readonly (number | null)[];
  readonly score: number;
}

const FIRST = [
  'Ilva',
  'Ronja',
  'Mirre',
  'Tessa',
  'Odalie',
  'Brisa',
  'Noor',
  'Sunniva',
  'Kaja',
  'Elowen',
  'Zita',
  'Pia',
];
const LAST = ['Torvan', 'Quellin', 'Aschdorn', 'Peltosalm', 'Marivoe', 'Dunmarch', 'Ostrevik', 'Halcott', 'Brunnwies'];

/** An invented name for a pseudonym, the same each time; none belongs to anybody we know of. */
export function inventedName(pseudonym: string): string {
  const n = Number(pseudonym.replace(/\D/g, '')) || 0;
  return `${FIRST[n % FIRST.length] ?? ''} ${LAST[Math.floor(n / FIRST.length) % LAST.length] ?? ''}${n >= 108 ? `-${LAST[(n + 4) % LAST.length] ?? ''}` : ''}`;
}

/** The open protocols of 2016/17 and 2017/18 with invented names in the place of pseudonyms. */
export function openProtocols(file: string): SheetProtocol[] {
  return readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const protocol = JSON.parse(line) as SheetProtocol;
      return { ...protocol, skater: inventedName(protocol.skater) };
    });
}
