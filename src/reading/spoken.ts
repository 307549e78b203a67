import type { Element, Jump, JumpElement, SpinElement } from '../notation/index.ts';

const TURNS = ['', 'single', 'double', 'triple', 'quadruple', 'quintuple'];

const JUMPS: Readonly<Record<Jump['name'], string>> = {
  T: 'toe loop',
  S: 'Salchow',
  Lo: 'loop',
  Eu: 'Euler',
  F: 'flip',
  Lz: 'Lutz',
  A: 'Axel',
};

const POSITIONS: Readonly<Record<SpinElement['position'], string>> = {
  U: 'upright spin',
  L: 'layback spin',
  C: 'camel spin',
  S: 'sit spin',
  Co: 'combination spin',
};

/** `triple Lutz`, `Axel` for a single Axel, `Euler`. */
export function spokenJump(jump: Jump): string {
  const name = JUMPS[jump.name];
  const isPlain = jump.name === 'Eu' || jump.turns === 0 || (jump.name === 'A' && jump.turns === 1);
  return isPlain ? name : `${TURNS[jump.turns] ?? ''} ${name}`.trim();
}

/** Names in words, without signs or levels: `double Axel and double toe loop`, `flying sit spin`. */
export function spokenElement(element: Element): string {
  switch (element.kind) {
    case 'jump':
      return listed(element.jumps.map(spokenJump));
    case 'spin':
      return [
        ...(element.flying ? ['flying'] : []),
        ...(element.changeFoot ? ['change-foot'] : []),
        POSITIONS[element.position],
      ].join(' ');
    case 'steps':
      return 'step sequence';
    case 'choreo':
      return { ChSq: 'choreographic sequence', ChSp: 'choreographic spin', ChSt: 'choreographic steps' }[element.form];
  }
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[], link = 'and'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${link} ${words.at(-1) ?? ''}`;
}

const NUMBERS = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ');

/** Small whole numbers in words. */
export const inWords = (n: number): string => NUMBERS[n] ?? String(n);

/** The jump of an element that a call sits on, else its first. */
export const mainJump = (element: JumpElement): Jump | null =>
  element.jumps.find((jump) => jump.rotation !== null || jump.edge !== null) ?? element.jumps[0] ?? null;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
