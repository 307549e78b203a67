/**
 * Estimates the stored priors of `src/forecast/priors/` from the open data and prints the file:
 *
 *   npx tsx scripts/estimate-priors.ts > src/forecast/priors/open-data.ts && npx prettier --write src/forecast/priors
 */
import { readFileSync } from 'node:fs';

import { earlierProgram, estimatePriors } from '../src/forecast/index.ts';
import { chooseRules, shippedLibrary } from '../src/rulebook/index.ts';
import { readProtocol } from '../src/scoring/index.ts';

const DATA = new URL('../test/data/protocols-2016-2018.jsonl', import.meta.url);
const SOURCE =
  '624 protocols of senior and junior internationals, seasons 2016/17 and 2017/18, nine judges ' +
  '(ISU Figure Skating Score Sheets as Structured Data, BuzzFeed News, CC BY 4.0)';

const programs = readFileSync(DATA, 'utf8')
  .trim()
  .split('\n')
  .map((line) => {
    const protocol = readProtocol(JSON.parse(line));
    if (!protocol.ok) throw new Error(protocol.error.advice);
    const { season, category, segment, order } = protocol.value;
    const rules = chooseRules(shippedLibrary(), {
      season: season ?? undefined,
      category: category ?? undefined,
      segment: segment ?? undefined,
    });
    if (!rules.ok) throw new Error(rules.error.advice);
    return earlierProgram(protocol.value, order ?? 0, rules.value);
  });

const rounded = (_: string, value: unknown): unknown =>
  typeof value === 'number' ? Math.round(value * 10_000) / 10_000 : value;

/** One line for each table, two levels deep: a data file that can be read and compared. */
function table(value: unknown, depth: number): string {
  if (depth === 0 || typeof value !== 'object' || value === null) return JSON.stringify(value, rounded);
  const rows = Object.entries(value).map(([key, inner]) => `  ${JSON.stringify(key)}: ${table(inner, depth - 1)},`);
  return `{\n${rows.join('\n')}\n}`;
}

process.stdout.write(`import type { Priors } from '../learn/priors.ts';

/**
 * Rates of the field, estimated from the open data; see README.md beside this file. Senior and junior
 * internationals under the rules of 2016 to 2018: not calibrated for children, for three judges, or for
 * calls that did not exist then (\`q\`).
 */
// prettier-ignore
export const OPEN_DATA_PRIORS: Priors = ${table(estimatePriors(programs, SOURCE), 2)};
`);
