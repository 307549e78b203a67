import { contentKey, type Element, type Jump, type JumpElement, type SpinElement } from '../notation/index.ts';
import type { Cause } from './causes.ts';
import { pairJumps } from './pairing.ts';

/** Whether a cause is as on the sheet (true) or as in the reference (false). */
export type AsOnSheet = (cause: Cause) => boolean;

/**
 * The element that would stand on the sheet if only the causes named by `asOnSheet` had happened and
 * all else were as in the reference. Both elements are of one kind; calls move with their jump, and
 * fall away where the jump that carried them is not there.
 */
export function blend(sheet: Element, reference: Element, asOnSheet: AsOnSheet): Element {
  if (sheet.kind === 'jump' && reference.kind === 'jump') return blendJumps(sheet, reference, asOnSheet);
  if (sheet.kind === 'spin' && reference.kind === 'spin') return blendSpins(sheet, reference, asOnSheet);
  if (sheet.kind === 'steps' && reference.kind === 'steps')
    return { ...sheet, ...levelOf(sheet, reference, asOnSheet) };
  if (sheet.kind === 'choreo' && reference.kind === 'choreo') {
    const form = asOnSheet('content') ? sheet.form : reference.form;
    return { ...sheet, ...levelOf(sheet, reference, asOnSheet), form };
  }
  throw new TypeError(`${sheet.kind} cannot be read as ${reference.kind}`);
}

function blendJumps(sheet: JumpElement, reference: JumpElement, asOnSheet: AsOnSheet): JumpElement {
  const shape = asOnSheet('content') ? 'right' : 'left';
  const jumps = pairJumps(reference.jumps, sheet.jumps).flatMap((pair): Jump[] => {
    const own = pair[shape];
    if (own === null) return [];
    const calls = (cause: Cause): Jump | null => (asOnSheet(cause) ? pair.right : pair.left);
    return [
      {
        name: own.name,
        turns: own.turns,
        rotation: calls('rotation')?.rotation ?? null,
        edge: takesEdge(own) ? (calls('edge')?.edge ?? null) : null,
        noValue: calls('no-value')?.noValue ?? false,
      },
    ];
  });
  const form = asOnSheet('content') ? sheet : reference;
  const repeats = asOnSheet('repeat') ? sheet : reference;
  return {
    kind: 'jump',
    jumps,
    markers: [
      ...form.markers.filter((one) => one.marker !== 'REP'),
      ...repeats.markers
        .filter((one) => one.marker === 'REP')
        .map((one) => ({ ...one, after: Math.min(one.after, jumps.length) })),
    ],
  };
}

const takesEdge = (jump: Jump): boolean => jump.name === 'F' || jump.name === 'Lz';

function blendSpins(sheet: SpinElement, reference: SpinElement, asOnSheet: AsOnSheet): SpinElement {
  const { flying, changeFoot, position } = asOnSheet('content') ? sheet : reference;
  const v = asOnSheet('V') ? sheet.v : reference.v;
  return { kind: 'spin', flying, changeFoot, position, v, ...levelOf(sheet, reference, asOnSheet) };
}

type Levelled = Pick<SpinElement, 'level' | 'noValue'>;

/** A level that was not confirmed belongs to `no-value`, another level than the reference's to `level`. */
function levelOf(sheet: Levelled, reference: Levelled, asOnSheet: AsOnSheet): Levelled {
  const noValue = asOnSheet('no-value') ? sheet.noValue : reference.noValue;
  if (sheet.level === null) return { level: asOnSheet('no-value') ? null : reference.level, noValue };
  return { level: asOnSheet('level') ? sheet.level : reference.level, noValue };
}

/** Causes that concern the code alone. */
export const CODE_CAUSES = ['content', 'rotation', 'edge', 'level', 'V', 'no-value', 'repeat'] as const;

/** The causes by which the code on the sheet departs from the reference's, in the fixed order. */
export function codeCauses(sheet: Element, reference: Element): Cause[] {
  return CODE_CAUSES.filter((cause) => {
    const alone = blend(sheet, reference, (one) => one === cause);
    const none = blend(sheet, reference, () => false);
    const without = blend(sheet, reference, (one) => one !== cause);
    const all = blend(sheet, reference, () => true);
    return text(alone) !== text(none) || text(without) !== text(all);
  });
}

/** `+COMBO` adds nothing, so it makes no difference. */
function text(element: Element): string {
  if (element.kind !== 'jump') return JSON.stringify([contentKey(element), element]);
  const markers = element.markers.filter((one) => one.marker !== 'COMBO');
  return JSON.stringify([element.jumps, markers]);
}
