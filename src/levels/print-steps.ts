import { footWord } from './step-clusters.ts';
import type { StepPlanAnswer } from './plan.ts';
import type { Edit } from './step-search.ts';
import { printSources } from './sources.ts';
import { listed, onDays, plural, points, wrap } from './words.ts';

/** The answer for a step sequence as text for a coach, no line longer than `width`. */
export function printSteps(answer: StepPlanAnswer, width = 80): string {
  const moves = answer.line === '' ? [] : answer.line.split(', ');
  const say = (text: string) => wrap(text, width, '  ');
  return [
    say(`Step plan${answer.id === null ? '' : ` ${answer.id}`}: ${headline(answer)}`),
    ...lineBroken(answer, moves, width),
    '',
    ...[limits(answer), spare(answer), critical(answer, moves)].filter((text) => text !== null).map(say),
    '',
    say(features(answer)),
    ...uncounted(answer, moves).map(say),
    ...chances(answer, moves).map(say),
    ...advice(answer).map(say),
    ...answer.notes.map(({ index, note }) => say(`At move ${index + 1}: ${note}`)),
    ...answer.warnings.map((warning) => say(`Note: ${warning}`)),
    say(printSources(answer.sources)),
  ].join('\n');
}

const headline = (answer: StepPlanAnswer): string =>
  answer.level === 'none'
    ? 'no level: fewer counted turns than Basic asks for'
    : `level ${answer.level === 'B' ? 'B (basic)' : answer.level}, if every turn is credited (${answer.rulebook})`;

/** The line itself, broken at the combinations: what hangs together stands together. */
function lineBroken({ clusters, counted }: StepPlanAnswer, moves: readonly string[], width: number): string[] {
  const starts = new Map(clusters.attempts.map((one) => [one.moves[0], one.foot]));
  const lines: string[] = [];
  let rest: string[] = [];
  const flush = () => {
    if (rest.length > 0) lines.push(wrap(`  ${rest.join(', ')}`, width, '  '));
    rest = [];
  };
  for (let index = 0; index < moves.length; index += 1) {
    const foot = starts.get(index);
    const step = foot === undefined ? 1 : 3;
    const some = moves.slice(index, index + step).map((move, k) => written(move, counted.includes(index + k)));
    if (foot !== undefined) {
      flush();
      lines.push(wrap(`  [${some.join(', ')}] ${footWord(foot)} foot combination`, width, '   '));
      index += 2;
    } else rest.push(...some);
  }
  flush();
  return lines;
}

/** A move without share and chance; in brackets where it does not count. */
function written(move: string, isCounted: boolean): string {
  const change = /^[/~] /.exec(move)?.[0] ?? '';
  return `${change}${isCounted ? bare(move) : `(${bare(move)})`}`;
}

function limits({ level, limitedBy }: StepPlanAnswer): string | null {
  if (level === 4) return null;
  const words = {
    turns: 'the turns',
    rotation: 'rotation',
    body: 'body movement',
    clusters: 'the clusters',
    cap: "the category's highest level",
  };
  return `It is held there by ${listed(limitedBy.map((one) => words[one]))}.`;
}

function spare({ spare: left }: StepPlanAnswer): string | null {
  if (left === null) return 'No loss of turns outside the combinations lowers it.';
  if (left > 0)
    return `Spare ${left}: ${plural(left, 'turn')} outside the combinations can be lost without losing the level.`;
  return 'WARNING, spare 0: one turn lost outside the combinations can already lower the level.';
}

function critical({ critical: lost }: StepPlanAnswer, moves: readonly string[]): string | null {
  if (lost.length === 0) return null;
  return `The level hangs on each of: ${listed(lost.map((index) => `${index + 1} ${bare(moves[index])}`))}.`;
}

/** A move without its annotations. */
const bare = (move: string | undefined): string => /[LR][FB][OI] [a-z]+/.exec(move ?? '')?.[0] ?? '';

function features({ turns, rotation, body, clusters }: StepPlanAnswer): string {
  const percent = (share: number) => `${(share * 100).toFixed(1)} %`;
  const yes = (met: boolean) => (met ? 'yes' : 'no');
  const why = clusters.reason === null ? '' : ` (${clusters.reason.replace(/\.$/, '')})`;
  return (
    `Turns counted: ${turns.counted}; different types and directions: ${turns.directions}. ` +
    `Rotation ${yes(rotation.met)} (left ${percent(rotation.left)}, right ${percent(rotation.right)} of the pattern), ` +
    `body ${yes(body.met)} (${percent(body.share)}), clusters ${yes(clusters.met)}${why}.`
  );
}

const uncounted = (answer: StepPlanAnswer, moves: readonly string[]): string[] =>
  answer.uncounted.map(({ index, reason }) => `Not counted: ${index + 1} ${bare(moves[index])} (${reason}).`);

function chances(answer: StepPlanAnswer, moves: readonly string[]): string[] {
  const rows = ([4, 3, 2, 1, 'B'] as const).filter((level) => answer.chances[level] > 1e-6);
  const lines = rows.map((level) => `  level ${level}: ${onDays(answer.chances[level])}`);
  if ((answer.chances.none ?? 0) > 1e-6) lines.push(`  no level: ${onDays(answer.chances.none ?? 0)}`);
  const expected = answer.expected === null ? [] : [`Base value to expect: ${points(answer.expected)}.`];
  return ['With the chances entered:', ...lines, ...expected, ...weakest(answer, moves)];
}

function weakest({ weakest: weights, chances: { 4: top } }: StepPlanAnswer, moves: readonly string[]): string[] {
  const [heaviest] = weights ?? [];
  if (heaviest === undefined || (heaviest.points === 0 && top === 0)) return [];
  return [
    `Most hangs on move ${heaviest.index + 1}, ${bare(moves[heaviest.index])}: ` +
      `${points(heaviest.points)} between credited and not; made sure it adds ${points(heaviest.gain)}.`,
  ];
}

function advice({ advice: best }: StepPlanAnswer): string[] {
  if (best === null) return [];
  const spareText = best.spare === null ? 'no turn to fear for' : `spare ${best.spare}`;
  return [`One change that helps: ${listed(best.edits.map(editWords))}; then level ${best.level}, ${spareText}.`];
}

export function editWords(edit: Edit): string {
  const turn = `${edit.edge} ${edit.turn}${edit.direction === null ? '' : ` ${edit.direction}`}`;
  return edit.kind === 'add' ? `add ${turn} before move ${edit.at + 1}` : `make move ${edit.at + 1} a ${turn}`;
}
