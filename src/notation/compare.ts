import type { Element } from './element.ts';

/**
 * The element as attempted: without `q`, `<`, `<<`, `e`, `!`, `*`, `V` and the marker `REP`.
 * Levels, `SEQ` and `COMBO` stay; a jump called with fewer turns stays as called.
 */
export function withoutCalls(element: Element): Element {
  switch (element.kind) {
    case 'jump':
      return {
        kind: 'jump',
        jumps: element.jumps.map(({ name, turns }) => ({ name, turns, rotation: null, edge: null, noValue: false })),
        markers: element.markers.filter((one) => one.marker !== 'REP'),
      };
    case 'spin':
      return { ...element, v: 0, noValue: false };
    case 'steps':
    case 'choreo':
      return { ...element, noValue: false };
  }
}

/**
 * The same element after taking off the calls: the same jumps in the same order, the same spin, a
 * step sequence, the same choreographic form. Levels and markers do not matter: they are what the
 * panel made of the element.
 */
export const sameElement = (a: Element, b: Element): boolean => contentKey(a) === contentKey(b);

/** Two elements have the same key if and only if `sameElement` holds. */
export function contentKey(element: Element): string {
  switch (element.kind) {
    case 'jump':
      return element.jumps.map((jump) => `${jump.turns}${jump.name}`).join('+');
    case 'spin':
      return `${element.flying ? 'F' : ''}${element.changeFoot ? 'C' : ''}${element.position}Sp`;
    case 'steps':
      return 'StSq';
    case 'choreo':
      return element.form;
  }
}
