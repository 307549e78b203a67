import type { SpinRules } from '../rulebook/index.ts';
import { BASIC, basicOf, revolutionsAround, type Basic, type Spin } from './spin.ts';

/** Whether a spin has its full value, the lower value of a V, or none; with the reasons as sentences. */
export interface Soundness {
  readonly value: 'full' | 'V' | 'none';
  readonly reasons: readonly string[];
  /** The code as the panel would write it, without level: a combination with one position is none. */
  readonly code: string;
}

/** V and no value, apart from the level: they depend on positions and revolutions only. */
export function soundnessOf(spin: Spin, rules: SpinRules): Soundness {
  const held = BASIC.filter((basic) => isHeld(spin, basic, rules));
  const missing = nothingAtAll(spin, held, rules);
  if (missing !== null) return { value: 'none', reasons: [missing], code: spin.code };
  const code = calledCode(spin, held);
  const short = shortFoot(spin, held, rules);
  const faults = [
    ...combinationFault(spin, held),
    ...flyingFaults(spin, rules),
    ...(short === null ? [] : [short.reason]),
  ];
  if (short?.value === 'no-value') return { value: 'none', reasons: faults, code };
  return { value: faults.length === 0 ? 'full' : 'V', reasons: faults, code };
}

/** The basic position is held somewhere for the revolutions it needs. */
const isHeld = (spin: Spin, basic: Basic, rules: SpinRules): boolean =>
  spin.parts.some(
    (part, index) =>
      basicOf(part.position) === basic &&
      revolutionsAround(spin.parts, index, 'position') >= rules.revolutionsPerPosition,
  );

function nothingAtAll(spin: Spin, held: readonly Basic[], rules: SpinRules): string | null {
  const total = spin.parts.reduce((sum, part) => sum + part.revolutions, 0);
  if (total < rules.minRevolutions) return `Fewer than ${rules.minRevolutions} revolutions: this is not a spin.`;
  return held.length === 0 ? `No basic position with ${rules.revolutionsPerPosition} revolutions: no value.` : null;
}

const LETTER = { camel: 'C', sit: 'S', upright: 'U' } as const;

/** With one basic position a combination is called as the spin in that position. */
function calledCode(spin: Spin, held: readonly Basic[]): string {
  const [only] = held;
  if (spin.position !== 'Co' || held.length !== 1 || only === undefined) return spin.code;
  return `${spin.flying ? 'F' : ''}${spin.changeFoot ? 'C' : ''}${LETTER[only]}Sp`;
}

function combinationFault(spin: Spin, held: readonly Basic[]): string[] {
  if (spin.position !== 'Co' || held.length !== BASIC.length - 1) return [];
  const missing = BASIC.filter((basic) => !held.includes(basic));
  return [`No ${missing.join(', ')} position with enough revolutions: two basic positions give a V.`];
}

function flyingFaults(spin: Spin, rules: SpinRules): string[] {
  if (!spin.flying || spin.position === 'Co' || spin.changeFoot) return [];
  const faults: string[] = [];
  if (spin.withoutJump) faults.push('No clear visible jump at the beginning.');
  const landing = revolutionsBefore(spin, rules);
  if (landing > rules.revolutionsPerPosition)
    faults.push(`The landing position comes after more than ${rules.revolutionsPerPosition} revolutions.`);
  return faults;
}

/** Revolutions before the position of the code is first held; infinite if it never is. */
function revolutionsBefore(spin: Spin, rules: SpinRules): number {
  const wanted = positionOf(spin);
  const landed = spin.parts.findIndex(
    (part, index) =>
      basicOf(part.position) === wanted &&
      revolutionsAround(spin.parts, index, 'position') >= rules.revolutionsPerPosition,
  );
  if (landed < 0) return Infinity;
  return spin.parts.slice(0, landed).reduce((sum, part) => sum + part.revolutions, 0);
}

/** The basic position that a code without combination names. */
export function positionOf(spin: Spin): Basic | null {
  if (spin.position === 'Co') return null;
  if (spin.position === 'C') return 'camel';
  return spin.position === 'S' ? 'sit' : 'upright';
}

/** After a change of foot each foot needs its revolutions, and in one position the position on each foot. */
function shortFoot(
  spin: Spin,
  held: readonly Basic[],
  rules: SpinRules,
): { readonly reason: string; readonly value: 'V' | 'no-value' } | null {
  if (!spin.changeFoot) return null;
  const value = rules.shortFoot[spin.segment];
  const feet = (['L', 'R'] as const).map((foot) => spin.parts.filter((part) => part.foot === foot));
  const enough = feet.every(
    (parts) => parts.reduce((sum, part) => sum + part.revolutions, 0) >= rules.minRevolutionsPerFoot,
  );
  if (!enough) return { value, reason: `Fewer than ${rules.minRevolutionsPerFoot} revolutions on one foot.` };
  const wanted = positionOf(spin) ?? (held.length === 1 ? held[0] : null);
  if (wanted == null) return null;
  const onBoth = (['L', 'R'] as const).every((foot) =>
    isHeld({ ...spin, parts: spin.parts.filter((p) => p.foot === foot) }, wanted, rules),
  );
  return onBoth ? null : { value, reason: `The ${wanted} position is not held on both feet.` };
}
