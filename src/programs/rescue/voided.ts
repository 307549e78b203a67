import { formatElement, formatJump } from '../../notation/index.ts';
import type { Hundredths } from '../../rulebook/index.ts';
import type { Called } from '../../scoring/index.ts';
import type { Planned } from '../planned.ts';
import type { Skated } from './continuations.ts';

/** A later element that is worth less because of a mishap before it. */
export interface VoidedLater {
  readonly no: number;
  readonly planned: string;
  /** As a panel would then call it. */
  readonly called: string;
  /** What it loses, behind its name: `loses its 2T`. */
  readonly words: string;
  readonly lost: Hundredths;
}

/** Jumps without value. */
const barred = ({ element }: Called): readonly number[] =>
  element.kind === 'jump' ? [...element.jumps.keys()].filter((i) => element.jumps[i]?.noValue === true) : [];

const hasRep = ({ element }: Called): boolean =>
  element.kind === 'jump' && element.markers.some(({ marker }) => marker === 'REP');

function wordsFor(before: Called, now: Called): string {
  const { element } = now;
  if (element.kind !== 'jump') return 'scores nothing';
  const all = barred(now);
  if (all.length === element.jumps.length) return 'scores nothing';
  const earlier = barred(before);
  const jumps = all.filter((i) => !earlier.includes(i)).flatMap((i) => element.jumps[i] ?? []);
  const codes = jumps.map((jump) => formatJump({ ...jump, noValue: false })).join(' and ');
  const parts = [
    ...(codes === '' ? [] : [`loses its ${codes}`]),
    ...(hasRep(now) && !hasRep(before) ? ['is marked +REP'] : []),
    ...(now.lowestGrade && !before.lowestGrade ? ['ends at the lowest grade'] : []),
  ];
  return parts.length === 0 ? `is called ${formatElement(element)}` : parts.join(' and ');
}

/** Elements after a mishap that are worth less than in a clean program; one that gains is none of them. */
export function voidedLater(
  no: number,
  planned: readonly Planned[],
  clean: Skated,
  asPlanned: Skated,
): readonly VoidedLater[] {
  return planned.flatMap((p, i) => {
    const [before, now] = [clean.called[i], asPlanned.called[i]];
    const lost = (clean.each[i] ?? 0) - (asPlanned.each[i] ?? 0);
    if (p.no <= no || before === undefined || now === undefined || lost <= 0) return [];
    const code = formatElement(now.element);
    const called = now.lowestGrade ? `${code} at the lowest grade` : code;
    return [{ no: p.no, planned: p.code, called, words: wordsFor(before, now), lost }];
  });
}
