import { contentKey, formatElement, parseCode, type Element, type Level } from '../../notation/index.ts';
import { hasStrayEuler, type Layout, type LayoutElement } from '../../scoring/index.ts';
import type { MendStep } from './types.ts';

/** A layout one step further. */
export interface Candidate {
  readonly step: MendStep;
  readonly layout: Layout;
  readonly addsJump: boolean;
}

const BARE = {
  start: null,
  half: null,
  grade: null,
  outcomes: null,
  max: null,
  stage: null,
  since: null,
  notBefore: null,
} as const;

/** What may be added where a rule asks for it and the skater's own list has none: no jump, the lowest level. */
const ADDABLE = ['ChSq1', 'StSqB', 'CCoSpB', 'FSSpB', 'FCSpB', 'SSpB', 'CSpB', 'USpB', 'LSpB'] as const;

const LEVELS: readonly Level[] = ['B', 1, 2, 3, 4];

const elementOf = (code: string): Element | null => {
  const parsed = parseCode(code);
  return parsed.ok ? parsed.value.element : null;
};

/** A combination that begins or ends on an Euler is none: it is never suggested. */
const maySuggest = (code: string): boolean => {
  const element = elementOf(code);
  return element !== null && (element.kind !== 'jump' || !hasStrayEuler(element));
};

const jumpsIn = (element: Element | null): number => (element?.kind === 'jump' ? element.jumps.length : 0);

/** Second and third jumps that the skater's own list holds, with the codes that carry them. */
function tailsOf(repertoire: readonly string[]): readonly string[] {
  return [...new Set(repertoire.flatMap((code) => /^[^+]+\+(.+)$/.exec(code)?.[1] ?? []))];
}

/** The same element made easier: a turn less, a jump less, a level less. Never anything new. */
function easier(element: Element): readonly Element[] {
  if (element.kind === 'jump') {
    const fewerTurns = element.jumps.flatMap((jump, i) =>
      jump.turns > 1 && jump.name !== 'Eu'
        ? [{ ...element, jumps: element.jumps.map((j, k) => (k === i ? { ...j, turns: j.turns - 1 } : j)) }]
        : [],
    );
    const fewerJumps = element.jumps.length > 1 ? [{ ...element, jumps: element.jumps.slice(0, -1), markers: [] }] : [];
    return [...fewerTurns, ...fewerJumps];
  }
  if (element.kind === 'choreo' || element.level === null) return [];
  return LEVELS.slice(0, LEVELS.indexOf(element.level)).map((level) => ({ ...element, level }));
}

/** Codes that may stand in place of an element: easier forms, the skater's own others, a tail known elsewhere. */
function insteadOf(code: string, others: readonly string[], tails: readonly string[]): readonly string[] {
  const element = elementOf(code);
  if (element === null) return [];
  const alone = element.kind === 'jump' && element.jumps.length === 1;
  const all = [
    ...easier(element).map(formatElement),
    ...others,
    ...(alone ? tails.map((tail) => `${code}+${tail}`) : []),
  ];
  return [...new Set(all)].filter((c) => c !== code && maySuggest(c));
}

const replaced = (layout: Layout, index: number, element: LayoutElement): Layout => ({
  ...layout,
  elements: layout.elements.map((one, i) => (i === index ? element : one)),
});

/** Two elements change places: each takes the other's time. */
function exchanged(layout: Layout, a: number, b: number): Layout {
  const [x, y] = [layout.elements[a], layout.elements[b]];
  if (x === undefined || y === undefined) return layout;
  const there = replaced(layout, a, { ...y, start: x.start, half: x.half });
  return replaced(there, b, { ...x, start: y.start, half: y.half });
}

/** Every layout that is one step away. `repertoire`: codes of hers, which alone may come in. */
export function candidates(layout: Layout, repertoire: readonly string[]): readonly Candidate[] {
  const { elements } = layout;
  const present = new Set(elements.map(({ code }) => code));
  const others = repertoire.filter((code) => !present.has(code));
  const tails = tailsOf([...repertoire, ...present]);
  const found: Candidate[] = [];
  elements.forEach(({ code, start, half }, i) => {
    const no = i + 1;
    if (elements.length > 1) {
      const rest = { ...layout, elements: elements.filter((_, k) => k !== i) };
      found.push({ step: { kind: 'take-out', no, code }, layout: rest, addsJump: false });
    }
    for (const to of insteadOf(code, others, tails)) {
      const next = replaced(layout, i, { ...BARE, code: to, start, half });
      const addsJump = jumpsIn(elementOf(to)) > jumpsIn(elementOf(code));
      found.push({ step: { kind: 'change', no, code, to }, layout: next, addsJump });
    }
    elements.slice(i + 1).forEach((other, k) => {
      if (other.code === code) return;
      const step = { kind: 'exchange', no, code, other: no + k + 1, otherCode: other.code } as const;
      found.push({ step, layout: exchanged(layout, i, i + k + 1), addsJump: false });
    });
  });
  const content = new Set(elements.map(({ code }) => keyOf(code)));
  for (const code of new Set([...others, ...ADDABLE])) {
    const element = elementOf(code);
    if (element === null || !maySuggest(code) || (element.kind !== 'jump' && content.has(keyOf(code)))) continue;
    const next = { ...layout, elements: [...elements, { ...BARE, code, start: lastStart(layout) }] };
    found.push({ step: { kind: 'add', code }, layout: next, addsJump: element.kind === 'jump' });
  }
  return found;
}

const keyOf = (code: string): string => {
  const element = elementOf(code);
  return element === null ? code : contentKey(element);
};

/** Behind the last element, where times are planned. */
const lastStart = ({ elements }: Layout): number | null => {
  const starts = elements.flatMap(({ start }) => (start === null ? [] : [start]));
  return starts.length < elements.length ? null : Math.max(...starts);
};
