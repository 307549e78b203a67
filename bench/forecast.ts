/**
 * How fast is an exact forecast of a whole free skate, beside a Monte Carlo in the same language?
 *
 *   npm run bench forecast                   cold forecast, what-if, 10^6 draws and their agreement, a backtest of 1,000
 *   npx tsx bench/forecast.ts 1e7 [seed]     the same with 10^7 draws
 */
import { readFileSync } from 'node:fs';

import { backtest, backtestLine, distributionOf, takeInHand, type BacktestLine } from '../src/forecast/index.ts';
import { nodesFor } from '../src/forecast/exact/distribution.ts';
import { programGraph } from '../src/forecast/exact/graph.ts';
import { tiltGraph } from '../src/forecast/exact/tilted.ts';
import { cumulative, quantile } from '../src/forecast/pmf.ts';
import { seniorFree } from '../src/forecast/testing/programs.ts';
import { chooseRules, shippedLibrary } from '../src/rulebook/index.ts';
import { readProtocol } from '../src/scoring/index.ts';

const say = (text: string): void => void process.stdout.write(`${text}\n`);
const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;

function timed<T>(work: () => T): { readonly ms: number; readonly value: T } {
  const start = performance.now();
  const value = work();
  return { ms: performance.now() - start, value };
}

const rounds = (n: number, work: () => unknown): number => median(Array.from({ length: n }, () => timed(work).ms));

const model = seniorFree(0.6);
const elements = { ...model, components: [] };
const first = timed(() => distributionOf(model)).ms;
const cold = rounds(15, () => distributionOf(model));
const withoutComponents = rounds(15, () => distributionOf(elements));
say(
  `exact, 12 elements, 7 nodes of the day, components: first run ${first.toFixed(0)} ms, then median ${cold.toFixed(1)} ms`,
);

const hand = takeInHand(model, 0);
if (!hand.ok) throw new Error(hand.error.advice);
const outcomes = model.elements[0]?.outcomes ?? [];
for (let i = 0; i < 5; i++) hand.value.with(outcomes);
say(
  `taken in hand: median ${rounds(7, () => takeInHand(model, 0)).toFixed(0)} ms; each what-if: median ${rounds(31, () => hand.value.with(outcomes)).toFixed(1)} ms`,
);

/** One level at one node as a cumulative table over outcomes and grades. */
interface Table {
  readonly cumulative: Float64Array;
  /** By state, then by row of the table. */
  readonly points: readonly Int32Array[];
  readonly next: readonly Int32Array[];
}

function tables(node: number): readonly Table[] {
  const graph = programGraph(elements, true);
  if (!graph.ok) throw new Error(graph.error.advice);
  return tiltGraph(graph.value, elements.formSd, nodesFor(elements.formSd)).map(({ level, chances }) => {
    const rows = (chances[node] ?? []).flatMap((grades, o) => grades.map((p, g) => ({ p, o, g })));
    let sum = 0;
    return {
      cumulative: Float64Array.from(rows, ({ p }) => (sum += p)),
      points: level.arcs.map((arcs) =>
        Int32Array.from(rows, ({ o, g }) => {
          const arc = arcs[o];
          return arc === undefined ? 0 : (level.values[arc.value]?.points[g] ?? 0) + arc.deduct;
        }),
      ),
      next: level.arcs.map((arcs) => Int32Array.from(rows, ({ o }) => arcs[o]?.next ?? 0)),
    };
  });
}

/** sfc32: 128 bits of state, passes the usual batteries; a fixed seed makes runs alike. */
let a = Number(process.argv[3] ?? 20240229) | 0;
let b = 0x9e3779b9 | 0;
let c = 0x243f6a88;
let d = 1;
function uniform(): number {
  const t = (((a + b) | 0) + d) | 0;
  d = (d + 1) | 0;
  a = b ^ (b >>> 9);
  b = (c + (c << 3)) | 0;
  c = (((c << 21) | (c >>> 11)) + t) | 0;
  return (t >>> 0) / 2 ** 32;
}
for (let i = 0; i < 20; i++) uniform();

function pick(table: Float64Array): number {
  const u = uniform();
  let low = 0;
  let high = table.length - 1;
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((table[mid] ?? 1) > u) high = mid;
    else low = mid + 1;
  }
  return low;
}

function drawAll(draws: number): Int32Array {
  const nodes = nodesFor(elements.formSd);
  let sum = 0;
  const weights = Float64Array.from(nodes, (n) => (sum += n.weight));
  const byNode = nodes.map((_, node) => tables(node));
  const scores = new Int32Array(draws);
  for (let i = 0; i < draws; i++) {
    let at = 0;
    let points = 0;
    for (const table of byNode[pick(weights)] ?? []) {
      const row = pick(table.cumulative);
      points += table.points[at]?.[row] ?? 0;
      at = table.next[at]?.[row] ?? 0;
    }
    scores[i] = points;
  }
  return scores;
}

const draws = Number(process.argv[2] ?? 1e6);
drawAll(10_000);
const monteCarlo = timed(() => drawAll(draws));
const perMillion = (monteCarlo.ms * 1e6) / draws;
say(
  `Monte Carlo of the elements, ${draws} draws: ${monteCarlo.ms.toFixed(0)} ms (${perMillion.toFixed(0)} ms for 10^6); exact without components ${withoutComponents.toFixed(1)} ms: ${(perMillion / withoutComponents).toFixed(1)} times faster at no error`,
);

const exact = distributionOf(elements);
if (!exact.ok) throw new Error(exact.error.advice);
const sorted = monteCarlo.value.slice().sort();
let worst = 0;
for (let k = 1; k <= 20; k++) {
  const x = quantile(exact.value, k / 21);
  const truth = cumulative(exact.value, x);
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if ((sorted[mid] ?? 0) <= x) low = mid + 1;
    else high = mid;
  }
  worst = Math.max(worst, Math.abs(low / draws - truth) / Math.sqrt((truth * (1 - truth)) / draws));
}
say(`largest difference at 20 quantiles: ${worst.toFixed(2)} standard errors`);

/** The open data, and the beginning of it once more as later events, up to 1,000 lines. */
function thousand(): readonly BacktestLine[] {
  const texts = readFileSync(new URL('../test/data/protocols-2016-2018.jsonl', import.meta.url), 'utf8')
    .trim()
    .split('\n');
  return Array.from({ length: 1000 }, (_, i) => {
    const protocol = readProtocol(JSON.parse(texts[i % texts.length] ?? ''));
    if (!protocol.ok) throw new Error(protocol.error.advice);
    const { season, category, segment, order } = protocol.value;
    const rules = chooseRules(shippedLibrary(), {
      season: season ?? undefined,
      category: category ?? undefined,
      segment: segment ?? undefined,
    });
    if (!rules.ok) throw new Error(rules.error.advice);
    const later = i < texts.length ? protocol.value : { ...protocol.value, order: (order ?? 0) + 20, id: `again ${i}` };
    const line = backtestLine(later, rules.value, i);
    if (!line.ok) throw new Error(line.error.advice);
    return line.value;
  });
}

const lines = thousand();
say(`backtest of 1,000 protocols: ${(timed(() => backtest(lines, { priors: null })).ms / 1000).toFixed(1)} s`);
