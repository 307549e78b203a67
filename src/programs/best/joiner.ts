import type { Element, JumpElement, JumpMarker } from '../../notation/index.ts';

/**
 * Joins jump elements. The same two always give the same object, so that whatever is worked out for an
 * element as skated (its call, its value) is worked out once for all combinations it comes about in.
 */
export class Joiner {
  private readonly alike = new Map<string, Element>();
  private readonly known = new Map<Element, Map<Element, Map<JumpMarker | null, JumpElement>>>();

  join(first: Element, second: Element, marker: JumpMarker | null): JumpElement {
    const [a, b] = [this.one(first), this.one(second)];
    const after = this.known.get(a) ?? new Map<Element, Map<JumpMarker | null, JumpElement>>();
    this.known.set(a, after);
    const marked = after.get(b) ?? new Map<JumpMarker | null, JumpElement>();
    after.set(b, marked);
    const found = marked.get(marker) ?? joined(a, b, marker);
    marked.set(marker, found);
    return found;
  }

  /** One object for all elements that are equal. */
  private readonly ones = new Map<Element, Element>();

  private one(element: Element): Element {
    const known = this.ones.get(element);
    if (known !== undefined) return known;
    const key = JSON.stringify(element);
    const found = this.alike.get(key) ?? element;
    this.alike.set(key, found);
    this.ones.set(element, found);
    return found;
  }
}

const jumpsOf = (element: Element): JumpElement['jumps'] => (element.kind === 'jump' ? element.jumps : []);

function joined(first: Element, second: Element, marker: JumpMarker | null): JumpElement {
  const jumps = [...jumpsOf(first), ...jumpsOf(second)];
  const kept = first.kind === 'jump' ? first.markers : [];
  return { kind: 'jump', jumps, markers: marker === null ? kept : [...kept, { marker, after: jumps.length }] };
}
