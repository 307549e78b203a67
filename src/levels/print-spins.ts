import type { SpinPlanAnswer, SpinsPlanAnswer } from './plan.ts';
import type { SpinLevel } from './spin-level.ts';
import { printSources } from './sources.ts';
import { listed, onDays, points, wrap } from './words.ts';

/** The answer for one spin as text for a coach, no line longer than `width`. */
export function printSpin(answer: SpinPlanAnswer, width = 80): string {
  const head = `Spin plan${answer.id === null ? '' : ` ${answer.id}`} (${answer.rulebook}):`;
  return [
    wrap(head, width),
    ...oneSpin(answer, answer.expected, width),
    wrap(printSources(answer.sources), width, '  '),
  ].join('\n');
}

/** The answer for the spins of a program, in skating order. */
export function printSpins(answer: SpinsPlanAnswer, width = 80): string {
  const head = `Spin plan${answer.id === null ? '' : ` ${answer.id}`}, whole program (${answer.rulebook}):`;
  const body = answer.spins.flatMap((spin, place) => [`Spin ${place + 1}`, ...oneSpin(spin, spin.expected, width)]);
  return [
    wrap(head, width),
    ...body,
    ...advice(answer).map((one) => wrap(one, width, '  ')),
    ...answer.warnings.map((one) => wrap(`Note: ${one}`, width, '  ')),
    wrap(printSources(answer.sources), width, '  '),
  ].join('\n');
}

function advice({ advice: best }: SpinsPlanAnswer): string[] {
  if (best === null) return [];
  const names = best.leaveOut.map(({ spin, index, name }) => `${name} in spin ${spin + 1}, part ${index + 1}`);
  return [
    `Better left out, so that another place can use it: ${listed(names)}; ` +
      `then ${points(best.expected)} to expect from all spins instead of ${points(best.before)}.`,
  ];
}

function oneSpin(spin: SpinLevel, expected: number | null, width: number): string[] {
  const say = (text: string) => wrap(`  ${text}`, width, '    ');
  return [
    headline(spin),
    ...spin.faults.map((fault) => `${spin.level === 'none' ? 'No value' : 'V'}: ${fault}`),
    ...featureLines(spin),
    ...(spin.level === 'none' ? [] : [...hangs(spin), ...chances(spin, expected)]),
    ...spin.notes.map(({ index, note }) => `At part ${index + 1}: ${note}`),
    ...spin.warnings.map((warning) => `Note: ${warning}`),
  ].map(say);
}

function headline(spin: SpinLevel): string {
  if (spin.level === 'none') return `${spin.code}: no value as planned`;
  const words = {
    features: 'the number of features',
    gate: "the season's condition for level 4",
    cap: "the category's highest level",
    foot: 'the limit of features a foot',
    variations: 'the limit of difficult variations',
    revolutions: 'the revolutions',
  };
  const held = spin.limitedBy.length === 0 ? '' : `, held there by ${listed(spin.limitedBy.map((one) => words[one]))}`;
  return `${spin.code} if everything is credited${held}`;
}

function featureLines(spin: SpinLevel): string[] {
  const counted = spin.features.filter((one) => one.counted).map((one) => `${one.feature} (part ${one.index + 1})`);
  const not = spin.features.filter((one) => !one.counted);
  return [
    ...(counted.length === 0 ? [] : [`Counts: ${listed(counted)}.`]),
    ...not.map((one) => `Does not count: ${one.feature} in part ${one.index + 1} (${one.reason ?? ''}).`),
  ];
}

function hangs(spin: SpinLevel): string[] {
  if (spin.spare === null) return [];
  if (spin.spare > 0) return [`Spare ${spin.spare}: so many features can be lost without losing the level.`];
  return [
    `WARNING, spare 0: the level hangs on ${listed(spin.critical.map((index) => `part ${index + 1}`)) || 'every feature'}.`,
  ];
}

function chances(spin: SpinLevel, expected: number | null): string[] {
  const rows = ([4, 3, 2, 1, 'B'] as const).filter((level) => spin.chances[level] > 1e-6);
  const told = rows.map((level) => `level ${level} ${onDays(spin.chances[level])}`);
  const value = expected === null ? '' : ` Base value to expect: ${points(expected)}.`;
  return [`With the chances entered: ${listed(told)}.${value}`];
}
