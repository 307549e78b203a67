/** Level and exact chances of a 14-turn sequence, against plain enumeration of all 2^14 credit patterns. */
import { chooseRules, shippedLibrary } from '../src/rulebook/index.ts';
import {
  improveSteps,
  levelChances,
  levelWhen,
  parseSteps,
  planOf,
  stepLevel,
  type Move,
} from '../src/levels/index.ts';

const FRAME = 16;
const parsed = parseSteps(`LFO bracket, LBI counter, LFI loop, / RFO rocker, RBO loop, RBO twizzle, / LFO rocker,
  / RFO counter, / RFO bracket, / LFI twizzle, / LFO choctaw, / RFO choctaw, / LBO rocker, / RBI bracket`);
const chosen = chooseRules(shippedLibrary(), { season: '2023/24', category: 'senior women', segment: 'free' });
if (!parsed.ok || !chosen.ok) throw new Error('the bench cannot read its own sequence or rules');
const rules = chosen.value.levels.steps(chosen.value.category);
const moves: Move[] = parsed.value.map((move, n) => ({
  ...move,
  share: 1 / parsed.value.length,
  body: true,
  rotation: n % 2 === 0 ? 'left' : 'right',
  credit: 0.85 + 0.01 * (n % 5),
}));
const plan = planOf(moves, rules);

/** Mean milliseconds of one call, after warming up. */
function measure(times: number, work: () => unknown): number {
  for (let n = 0; n < Math.ceil(times / 5); n += 1) work();
  const start = performance.now();
  for (let n = 0; n < times; n += 1) work();
  return (performance.now() - start) / times;
}

/** The same chances by trying every credit pattern. */
function enumerated(): Map<string, number> {
  const chances = new Map<string, number>();
  for (let bits = 0; bits < 2 ** moves.length; bits += 1) {
    const isCredited = (index: number) => ((bits >> index) & 1) === 1;
    const p = moves.reduce((all, move, index) => all * (isCredited(index) ? move.credit : 1 - move.credit), 1);
    const level = String(levelWhen(plan, isCredited));
    chances.set(level, (chances.get(level) ?? 0) + p);
  }
  return chances;
}

const exact = measure(500, () => stepLevel(moves, rules));
const chancesOnly = measure(500, () => levelChances(plan));
const plain = measure(3, enumerated);
const difference = Math.max(
  ...(['B', 1, 2, 3, 4] as const).map((level) =>
    Math.abs(levelChances(plan)[level] - (enumerated().get(String(level)) ?? 0)),
  ),
);
const search = measure(3, () => improveSteps(moves, rules, () => 0));

console.log(
  `level, spare, critical and chances of ${moves.length} turns: ${exact.toFixed(3)} ms (a frame is ${FRAME} ms)`,
);
console.log(
  `chances alone: ${chancesOnly.toFixed(3)} ms; plain enumeration of 2^${moves.length}: ${plain.toFixed(1)} ms; ratio ${(plain / chancesOnly).toFixed(0)}`,
);
console.log(`largest difference of the two: ${difference.toExponential(1)}`);
console.log(`proven best single change: ${search.toFixed(0)} ms`);
