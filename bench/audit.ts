import { readFileSync } from 'node:fs';

import { chooseRules, shippedLibrary, type ChosenRules } from '../src/rulebook/index.ts';
import { audit, readProtocol, type Protocol, type ProtocolForm } from '../src/scoring/index.ts';

/*
 * Audits of the open data on one core: audits and elements per second, the ratio to a plain
 * floating-point recomputation of the same sums (marks, sums and totals; its base values are the printed
 * ones, so it does far less), and growth with the number of protocols, which should be linear.
 */

const forms = readFileSync(new URL('../test/data/protocols-2016-2018.jsonl', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((line) => JSON.parse(line) as ProtocolForm);

const library = shippedLibrary();
const protocols = forms.map(parsed);
const rules = protocols.map(rulesOf);
const elements = protocols.reduce((sum, protocol) => sum + protocol.elements.length, 0);

function parsed(form: ProtocolForm): Protocol {
  const read = readProtocol(form);
  if (!read.ok) throw new Error(read.error.at);
  return read.value;
}

function rulesOf(protocol: Protocol): ChosenRules {
  const { season, category, segment } = protocol;
  const chosen = chooseRules(library, { season: season ?? '', category: category ?? '', segment: segment ?? 'free' });
  if (!chosen.ok) throw new Error(chosen.error.at);
  return chosen.value;
}

function auditAll(count: number): number {
  let findings = 0;
  for (let i = 0; i < count; i += 1) {
    const k = i % protocols.length;
    const protocol = protocols[k];
    const chosen = rules[k];
    if (protocol && chosen) findings += audit(protocol, chosen).findings.length;
  }
  return findings;
}

/** Trimmed mean of numbers, in floating point. */
function meanOf(marks: readonly (number | null)[]): number {
  const present = marks.filter((mark) => mark !== null).sort((a, b) => a - b);
  const kept = present.length >= 5 ? present.slice(1, -1) : present;
  return kept.length === 0 ? 0 : kept.reduce((sum, mark) => sum + mark, 0) / kept.length;
}

const round = (points: number): number => Math.round(points * 100) / 100;

/** The same sums without exactness, rulebook, calls or findings: what a spreadsheet would do. */
function plainAll(): number {
  let open = 0;
  for (const form of forms) {
    const tes = form.elements.reduce((sum, one) => sum + (one.base ?? 0) + round(meanOf(one.marks ?? []) * 0.7), 0);
    const pcs = (form.components ?? []).reduce(
      (sum, one) => sum + round(round(meanOf(one.marks ?? [])) * (one.factor ?? 1)),
      0,
    );
    const deductions = typeof form.deductions === 'number' ? form.deductions : 0;
    if (Math.abs(tes + pcs + deductions - (form.total ?? 0)) > 0.005) open += 1;
  }
  return open;
}

/** Best of several runs, in milliseconds: the machine is shared. */
function best(run: () => unknown, runs = 15): number {
  let least = Infinity;
  for (let i = 0; i < runs; i += 1) {
    const start = performance.now();
    run();
    least = Math.min(least, performance.now() - start);
  }
  return least;
}

const perSecond = (count: number, ms: number): string => Math.round((count / ms) * 1000).toLocaleString('en');

auditAll(protocols.length);
const once = best(() => auditAll(protocols.length));
const plain = best(plainAll);
const read = best(() => forms.map(parsed));
console.log(`audit of the open data: ${protocols.length} protocols, ${elements} elements in ${once.toFixed(1)} ms`);
console.log(`  ${perSecond(protocols.length, once)} audits/s, ${perSecond(elements, once)} elements/s on one core`);
console.log(
  `  reading the JSON form: ${perSecond(protocols.length, read)} protocols/s, ${perSecond(elements, read)} elements/s`,
);
console.log(
  `  plain floating-point sums: ${plain.toFixed(2)} ms; the audit takes ${(once / plain).toFixed(1)} times as long`,
);
for (const times of [2, 4, 8]) {
  const ms = best(() => auditAll(protocols.length * times), 5);
  console.log(`  ${times} x as many: ${(ms / once).toFixed(2)} times as long`);
}
