import type { Jump, JumpElement, JumpMarker } from '../../notation/index.ts';

/** Kind of a jump for repeats: turns and name, whatever the calls (`3T<<` is a try of `3T`). */
export const kindOf = (jump: Jump): string => `${jump.turns}${jump.name}`;

/** Families count a jump whatever its turns. The prefix keeps them apart from kinds. */
export const familyOf = (jump: Jump): string => `family ${jump.name}`;

export const isEuler = (jump: Jump): boolean => jump.name === 'Eu';

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
