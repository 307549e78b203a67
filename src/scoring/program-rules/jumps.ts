import type { Jump, JumpElement, JumpMarker } from '../../notation/index.ts';

/** Kind of a jump for repeats: turns and name, whatever the calls (`3T<<` is a try of `3T`). */
export const kindOf = (jump: Jump): string => `${jump.turns}${jump.name}`;

/** Families count a jump whatever its turns. The prefix keeps them apart from kinds. */
export const familyOf = (jump: Jump): string => `family ${jump.name}`;

export const isEuler = (jump: Jump): boolean => jump.name === 'Eu';

const isListed = (jump: Jump | undefined): boolean => jump !== undefined && !isEuler(jump) && jump.turns >= 1;

/** An Euler is a half loop between two listed jumps; at the start, at the end or alone it is none. */
export const isStrayEuler = (element: JumpElement, index: number): boolean => {
  const jump = element.jumps[index];
  if (jump === undefined || !isEuler(jump)) return false;
  return !isListed(element.jumps[index - 1]) || !isListed(element.jumps[index + 1]);
};

/** Does an Euler of this element stand where it is none? */
export const hasStrayEuler = (element: JumpElement): boolean =>
  element.jumps.some((_, index) => isStrayEuler(element, index));

/** An Axel of one turn or more; a jump without rotation is no Axel-type jump. */
export const isAxelType = (jump: Jump): boolean => jump.name === 'A' && jump.turns >= 1;

export const hasMarker = (element: JumpElement, marker: JumpMarker): boolean =>
  element.markers.some((m) => m.marker === marker);

/** A combination or sequence, tried: two jumps or more, or marked as one. */
export const isUnit = (element: JumpElement): boolean =>
  element.jumps.length > 1 || hasMarker(element, 'SEQ') || hasMarker(element, 'COMBO');

/** Takes the value from the jumps at these indexes; the element itself where nothing changes. */
export function voidJumps(element: JumpElement, indexes: ReadonlySet<number>): JumpElement {
  if (indexes.size === 0) return element;
  return { ...element, jumps: element.jumps.map((jump, i) => (indexes.has(i) ? { ...jump, noValue: true } : jump)) };
}

/** Adds a marker behind the last jump, once. */
export const mark = (element: JumpElement, marker: JumpMarker): JumpElement =>
  hasMarker(element, marker)
    ? element
    : { ...element, markers: [...element.markers, { marker, after: element.jumps.length }] };
