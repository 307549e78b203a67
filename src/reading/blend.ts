import type { ChoreoElement, Element, Jump, JumpElement, SpinElement, StepElement } from '../notation/index.ts';
import type { Pair } from './align.ts';
import type { Cause } from './causes.ts';
import { pairJumps } from './pairing.ts';

/** Whether a cause is as on the sheet (true) or as in the reference (false). */
type AsOnSheet = (cause: Cause) => boolean;

/** Two versions of one element: by which causes they differ, and every mixture of the two. */
export interface Blend {
  /** Causes by which the code on the sheet departs from the reference's, in the fixed order. */
  readonly causes: readonly Cause[];
  /**
   * The element that would stand on the sheet if only the causes named had happened and all else were
   * as in the reference. Calls move with their jump, and fall away where that jump is not there.
   */
  readonly under: (asOnSheet: AsOnSheet) => Element;
}

/** Causes that concern the code alone. */
export const CODE_CAUSES = [
  'content',
  'rotation',
  'edge',
  'level',
  'V',
  'no-value',
  'repeat',
] as const satisfies readonly Cause[];
type CodeCause = (typeof CODE_CAUSES)[number];

type Differences = Partial<Record<CodeCause, boolean>>;

/** Sheet and reference of one kind as a blend; another kind is a fault of the pairing. */
export function blendOf(sheet: Element, reference: Element): Blend {
  if (sheet.kind === 'jump' && reference.kind === 'jump') return jumpBlend(sheet, reference);
  if (sheet.kind === 'spin' && reference.kind === 'spin') return spinBlend(sheet, reference);
  if (sheet.kind === 'steps' && reference.kind === 'steps') return levelBlend(sheet, reference);
  if (sheet.kind === 'choreo' && reference.kind === 'choreo') return choreoBlend(sheet, reference);
  throw new TypeError(`${sheet.kind} cannot be read as ${reference.kind}`);
}

const causesOf = (differences: Differences): Cause[] => CODE_CAUSES.filter((cause) => differences[cause] === true);

function jumpBlend(sheet: JumpElement, reference: JumpElement): Blend {
  const pairs = pairJumps(reference.jumps, sheet.jumps);
  const differs = (of: (jump: Jump) => unknown, absent: unknown): boolean =>
    pairs.some(({ left, right }) => (left ? of(left) : absent) !== (right ? of(right) : absent));
  return {
    causes: causesOf({
      content:
        differs((jump) => `${jump.turns}${jump.name}`, null) || places(sheet, 'SEQ') !== places(reference, 'SEQ'),
      rotation: differs((jump) => jump.rotation, null),
      edge: differs((jump) => jump.edge, null),
      'no-value': differs((jump) => jump.noValue, false),
      repeat: places(sheet, 'REP') !== places(reference, 'REP'),
    }),
    under: (asOnSheet) => blendedJumps(sheet, reference, pairs, asOnSheet),
  };
}

/** Where a marker stands, as text. `+COMBO` is never asked for: it adds nothing. */
const places = (element: JumpElement, marker: 'SEQ' | 'REP'): string =>
  element.markers.map((one) => (one.marker === marker ? `${one.after} ` : '')).join('');

function blendedJumps(
  sheet: JumpElement,
  reference: JumpElement,
  pairs: readonly Pair<Jump, Jump>[],
  asOnSheet: AsOnSheet,
): JumpElement {
  const shape = asOnSheet('content') ? 'right' : 'left';
  const rotation = asOnSheet('rotation') ? 'right' : 'left';
  const edge = asOnSheet('edge') ? 'right' : 'left';
  const value = asOnSheet('no-value') ? 'right' : 'left';
  const jumps: Jump[] = [];
  for (const pair of pairs) {
    const own = pair[shape];
    if (own === null) continue;
    jumps.push({
      name: own.name,
      turns: own.turns,
      rotation: pair[rotation]?.rotation ?? null,
      edge: own.name === 'F' || own.name === 'Lz' ? (pair[edge]?.edge ?? null) : null,
      noValue: pair[value]?.noValue ?? false,
    });
  }
  const form = asOnSheet('content') ? sheet : reference;
  const repeats = asOnSheet('repeat') ? sheet : reference;
  return { kind: 'jump', jumps, markers: markersOf(form, repeats, jumps.length) };
}

/** Form from one side, the mark of a repeat from the other; it stays with its jump. */
const markersOf = (form: JumpElement, repeats: JumpElement, jumps: number): JumpElement['markers'] =>
  form.markers.length + repeats.markers.length === 0
    ? []
    : [
        ...form.markers.filter((one) => one.marker !== 'REP'),
        ...repeats.markers.flatMap((one) =>
          one.marker === 'REP' ? [{ marker: one.marker, after: Math.min(one.after, jumps) }] : [],
        ),
      ];

function spinBlend(sheet: SpinElement, reference: SpinElement): Blend {
  const content =
    sheet.flying !== reference.flying ||
    sheet.changeFoot !== reference.changeFoot ||
    sheet.position !== reference.position;
  return {
    causes: causesOf({ content, V: sheet.v !== reference.v, ...levelDifferences(sheet, reference) }),
    under: (asOnSheet) => {
      const { flying, changeFoot, position } = asOnSheet('content') ? sheet : reference;
      const { v } = asOnSheet('V') ? sheet : reference;
      return { kind: 'spin', flying, changeFoot, position, v, ...levelUnder(sheet, reference, asOnSheet) };
    },
  };
}

const levelBlend = (sheet: StepElement, reference: StepElement): Blend => ({
  causes: causesOf(levelDifferences(sheet, reference)),
  under: (asOnSheet) => ({ kind: 'steps', ...levelUnder(sheet, reference, asOnSheet) }),
});

const choreoBlend = (sheet: ChoreoElement, reference: ChoreoElement): Blend => ({
  causes: causesOf({ content: sheet.form !== reference.form, ...levelDifferences(sheet, reference) }),
  under: (asOnSheet) => ({
    kind: 'choreo',
    form: asOnSheet('content') ? sheet.form : reference.form,
    ...levelUnder(sheet, reference, asOnSheet),
  }),
});

type Levelled = Pick<SpinElement, 'level' | 'noValue'>;

/** A level that was not confirmed belongs to `no-value`, another level than the reference's to `level`. */
const levelDifferences = (sheet: Levelled, reference: Levelled): Differences => ({
  level: sheet.level !== null && sheet.level !== reference.level,
  'no-value': sheet.noValue !== reference.noValue || (sheet.level === null && reference.level !== null),
});

function levelUnder(sheet: Levelled, reference: Levelled, asOnSheet: AsOnSheet): Levelled {
  const noValue = asOnSheet('no-value') ? sheet.noValue : reference.noValue;
  const level = asOnSheet(sheet.level === null ? 'no-value' : 'level') ? sheet.level : reference.level;
  return { level, noValue };
}
