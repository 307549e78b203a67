/*
 * Three segments written down once more, straight from the rule texts and without any code of the
 * product: strings in, legal or not out. Sources beside each rule; season 2025/26.
 */

interface Jumps {
  readonly names: readonly string[];
  readonly sequence: boolean;
}

const isJump = (code: string): boolean => /^\d/.test(code);
const isSpin = (code: string): boolean => /Sp[B1-4]$/.test(code) && !code.startsWith('ChSp');
const character = (code: string): string => code.replace(/[B1-4]$/, '');
const level = (code: string): number => Number(/[B1-4]$/.exec(code)?.[0] ?? 0) || 0;

function jumpsOf(code: string): Jumps {
  const parts = code.split('+');
  return { names: parts.filter((p) => p !== 'SEQ'), sequence: parts.includes('SEQ') };
}

const turns = (jump: string): number => Number(jump[0]);
const count = (list: readonly string[], one: string): number => list.filter((x) => x === one).length;
const distinct = (list: readonly string[]): readonly string[] => [...new Set(list)];

/** Can the spins be given different kinds? At most three of each list, tried in every order. */
function differentKinds(spins: readonly string[], kinds: readonly RegExp[]): boolean {
  const [first, ...rest] = spins;
  if (first === undefined) return true;
  return kinds.some(
    (kind, i) =>
      kind.test(first) &&
      differentKinds(
        rest,
        kinds.filter((_, k) => k !== i),
      ),
  );
}

/**
 * Senior women, short program (event page of 2022/23 restating the ISU rules; Japanese page on
 * short-program jumps; facts from memory where those are silent): 2A or 3A; any triple; 2+3 or 3+3
 * without Euler or sequence; no jump in two slots; flying spin, LSp/SSp/CSp, CCoSp; one step sequence.
 */
export function seniorShort(program: readonly string[]): boolean {
  const jumps = program.filter(isJump).map(jumpsOf);
  if (jumps.length !== 3 || jumps.some((j) => j.sequence)) return false;
  const solos = jumps.filter((j) => j.names.length === 1).flatMap((j) => j.names);
  const combos = jumps.filter((j) => j.names.length > 1);
  const combo = combos[0]?.names ?? [];
  if (solos.length !== 2 || combos.length !== 1 || combo.length !== 2 || combo.some((j) => j.endsWith('Eu')))
    return false;
  const pair = combo.map(turns).sort().join('+');
  if (pair !== '2+3' && pair !== '3+3') return false;
  const [a = '', b = ''] = solos;
  const fits = (axel: string, solo: string): boolean => ['2A', '3A'].includes(axel) && turns(solo) === 3;
  if (!fits(a, b) && !fits(b, a)) return false;
  if (a === b || combo.includes(a) || combo.includes(b)) return false;
  const spins = program.filter(isSpin).map(character);
  if (spins.length !== 3 || distinct(spins).length !== 3) return false;
  if (!differentKinds(spins, [/^F[ULCS]Sp$/, /^[LSC]Sp$/, /^CCoSp$/])) return false;
  return count(program.map(character), 'StSq') === 1 && !program.some((code) => code.startsWith('Ch'));
}

/** Repeats of a senior free skate: Comm. 2656 as summarised; doubles twice at most: note on the 2014 Congress. */
function seniorRepeats(elements: readonly Jumps[]): boolean {
  const all = elements.flatMap((e) => e.names).filter((j) => turns(j) >= 2 && !j.endsWith('Eu'));
  const kinds = distinct(all);
  if (kinds.some((kind) => count(all, kind) > 2)) return false;
  const twice = kinds.filter((kind) => turns(kind) >= 3 && count(all, kind) === 2);
  if (twice.length > 2 || twice.filter((kind) => turns(kind) >= 4).length > 1) return false;
  const alone = elements.filter((e) => e.names.length === 1).flatMap((e) => e.names);
  return twice.every((kind) => count(alone, kind) < 2);
}

/** An Euler is a half loop between two listed jumps (facts on scoring: combinations, sequences, Euler). */
const eulerBetween = ({ names }: Jumps): boolean =>
  names.every((name, i) => {
    if (!name.endsWith('Eu')) return true;
    const around = [names[i - 1], names[i + 1]];
    return around.every((other) => other !== undefined && /^[1-5](T|S|Lo|F|Lz|A)$/.test(other));
  });

/**
 * Senior women, free skate: seven jump elements at most, an Axel type among them, three combinations or
 * sequences, one of them of three jumps; repeats; three spins of different character (combination,
 * flying, one position); one step sequence and one choreographic sequence at most. A quintuple jump
 * stands alone (broadcaster's guide 2024/25).
 */
export function seniorFree(program: readonly string[]): boolean {
  const jumps = program.filter(isJump).map(jumpsOf);
  if (jumps.length > 7 || !jumps.some((j) => j.names.some((n) => n.endsWith('A')))) return false;
  const units = jumps.filter((j) => j.names.length > 1);
  if (units.length > 3 || units.some((u) => u.names.length > 3)) return false;
  if (units.filter((u) => u.names.length === 3).length > 1) return false;
  if (units.some((u) => u.names.some((n) => turns(n) > 4))) return false;
  if (units.some((u) => u.sequence && !u.names.slice(1).some((n) => n.endsWith('A')))) return false;
  if (!jumps.every(eulerBetween)) return false;
  if (!seniorRepeats(jumps)) return false;
  const spins = program.filter(isSpin).map(character);
  if (spins.length > 3 || distinct(spins).length < spins.length) return false;
  if (!differentKinds(spins, [/Co/, /^F/, /^F?C?[ULCS]Sp$/])) return false;
  const steps = count(program.map(character), 'StSq');
  const choreo = program.filter((code) => code.startsWith('ChSq')).length;
  return steps <= 1 && choreo <= 1 && !program.some((code) => /^ChS[pt]/.test(code));
}

/**
 * Intermediate novice women, free skate (event page of 2022/23 restating the ISU rules; forum post
 * quoting the requirements of 2024/25 for units; caps from memory): five jump elements, one Axel type,
 * no triples; two combinations, or one without Euler and one sequence; one unit of three jumps, one of
 * two; one single and one double kind repeated, once each; two spins, combination and one position;
 * one step sequence; levels up to 2.
 */
export function intermediateNovice(program: readonly string[]): boolean {
  const jumps = program.filter(isJump).map(jumpsOf);
  const all = jumps.flatMap((j) => j.names).filter((n) => !n.endsWith('Eu'));
  if (jumps.length > 5 || !all.some((n) => n.endsWith('A')) || all.some((n) => turns(n) > 2)) return false;
  const units = jumps.filter((j) => j.names.length > 1);
  const sequences = units.filter((u) => u.sequence);
  const long = units.filter((u) => u.names.length === 3);
  if (units.length > 2 || sequences.length > 1 || long.length > 1 || units.some((u) => u.names.length > 3))
    return false;
  const eulers = units.some((u) => !u.sequence && u.names.some((n) => n.endsWith('Eu')));
  if (sequences.length === 1 && eulers) return false;
  if (!jumps.every(eulerBetween)) return false;
  if (sequences.some((u) => !u.names.slice(1).some((n) => n.endsWith('A')))) return false;
  const kinds = distinct(all);
  const twice = kinds.filter((kind) => count(all, kind) > 1);
  if (twice.some((kind) => count(all, kind) > 2)) return false;
  if (twice.filter((kind) => turns(kind) === 1).length > 1 || twice.filter((kind) => turns(kind) === 2).length > 1)
    return false;
  const spins = program.filter(isSpin).map(character);
  if (spins.length > 2 || distinct(spins).length < spins.length) return false;
  if (!differentKinds(spins, [/Co/, /^F?C?[ULCS]Sp$/])) return false;
  const steps = program.filter((code) => code.startsWith('StSq'));
  if (steps.length > 1 || program.some((code) => code.startsWith('Ch'))) return false;
  return [...program.filter(isSpin), ...steps].every((code) => level(code) <= 2);
}
