import { contentKey, parseCode, type Element } from '../../notation/index.ts';
import type { Layout } from '../layout.ts';
import type { Finding } from './finding.ts';
import type { ValuedElement } from './measure.ts';

interface Place {
  readonly index: number;
  readonly code: string;
  readonly key: string;
  readonly kind: Element['kind'] | 'unknown';
}

/**
 * Printed elements against the planned ones, in skating order, calls and levels aside. What differs may
 * have been skated differently or keyed wrongly: only the coach saw it, so it is a possible slip.
 */
export function planFindings(valued: readonly ValuedElement[], layout: Layout): readonly Finding[] {
  const printed = valued.map(({ printed: { code }, called }, index) => placeOf(code, called.element, index));
  const planned = layout.elements.map(({ code }, index) => {
    const parsed = parseCode(code);
    return placeOf(code, parsed.ok ? parsed.value.element : null, index);
  });
  const same = commonOrder(planned, printed);
  const leftPlanned = planned.filter((place) => !same.has(place.index));
  const matched = new Set(same.values());
  const own = printed
    .filter((place) => !matched.has(place.index))
    .map((place) => differing(place, takeAlike(leftPlanned, place)));
  return [...own, ...leftPlanned.map(missing)];
}

const placeOf = (code: string, element: Element | null, index: number): Place => ({
  index,
  code,
  key: element === null ? code : contentKey(element),
  kind: element?.kind ?? 'unknown',
});

/** The longest run of equal elements in the same order: planned index -> printed index. */
function commonOrder(planned: readonly Place[], printed: readonly Place[]): Map<number, number> {
  const width = printed.length + 1;
  const longest = new Int32Array((planned.length + 1) * width);
  const at = (i: number, j: number): number => longest[i * width + j] ?? 0;
  for (let i = planned.length - 1; i >= 0; i -= 1) {
    for (let j = printed.length - 1; j >= 0; j -= 1) {
      const equal = planned[i]?.key === printed[j]?.key;
      longest[i * width + j] = equal ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
    }
  }
  const pairs = new Map<number, number>();
  for (let i = 0, j = 0; i < planned.length && j < printed.length;) {
    if (planned[i]?.key === printed[j]?.key) pairs.set(i++, j++);
    else if (at(i + 1, j) >= at(i, j + 1)) i += 1;
    else j += 1;
  }
  return pairs;
}

/** Takes the first planned element of the same kind that is still without a partner. */
function takeAlike(left: Place[], place: Place): Place | null {
  const at = left.findIndex((planned) => planned.kind === place.kind);
  return at < 0 ? null : (left.splice(at, 1)[0] ?? null);
}

const SLIP = 'code against the plan';

const differing = (place: Place, planned: Place | null): Finding => ({
  kind: 'slip',
  at: `elements[${place.index}].code`,
  published: place.code,
  expected: planned?.code ?? null,
  message:
    planned === null
      ? `${place.code} is on the sheet and not in the plan. Was it skated?`
      : `Planned was ${planned.code}, the sheet has ${place.code}. Was it skated so?`,
  slip: SLIP,
});

const missing = (planned: Place): Finding => ({
  kind: 'slip',
  at: 'elements',
  published: null,
  expected: planned.code,
  message: `${planned.code} was planned and is not on the sheet. Was it left out?`,
  slip: SLIP,
});
