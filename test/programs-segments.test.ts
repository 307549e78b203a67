import { describe, expect, it } from 'vitest';
import { SEGMENTS, type Category, type Segment } from '../src/notation/index.ts';
import { bestLayouts, checkJson, checkLayout, segmentRules } from '../src/programs/index.ts';
import { entry, inventoryOf } from '../src/programs/testing/random-inventory.ts';
import { chooseRules, shippedLibrary, type ChosenRules, type ContentRules } from '../src/rulebook/index.ts';
import type { Inventory, LayoutElement } from '../src/scoring/index.ts';

/*
 * Every segment of every category of every season that is shipped: a layout made to fit its own rules, the
 * same broken in ways that any coach may break it, and the search over what it holds.
 */

interface Case {
  readonly name: string;
  readonly rules: ChosenRules;
  readonly category: Category;
  readonly segment: Segment;
}

const library = shippedLibrary();

const CASES: readonly Case[] = library.list().flatMap((id) => {
  const book = library.rulebook(id);
  return (book?.categories ?? []).flatMap((category) =>
    SEGMENTS.flatMap((segment): readonly Case[] => {
      const rules = chooseRules(library, { rulebook: id, category, segment });
      return rules.ok ? [{ name: `${id}, ${category}, ${segment}`, rules: rules.value, category, segment }] : [];
    }),
  );
});

const sure = (code: string): LayoutElement => entry(code, [{ p: 1, code, grades: [{ grade: 0, p: 1 }], fall: false }]);

const form = (codes: readonly string[], { rules, category, segment }: Case): Inventory =>
  inventoryOf(codes.map(sure), { season: rules.values.season, category, segment });

/** A level that counts in the category. */
const level = (cap: number | null): string => String(Math.min(cap ?? 4, 4));

/** Jumps that the limits on turns leave, the highest first, each once. */
function jumpsFor({ maxTurns, maxAxelTurns, slots }: ContentRules, wanted: number): readonly string[] {
  const most = Math.min(maxTurns ?? 2, 3);
  const axel = `${Math.max(1, Math.min(maxAxelTurns ?? 2, 2))}A`;
  if (slots !== null) {
    return slots.map(({ slot, turns, names, pairs }) => {
      const high = Math.min(Math.max(...turns, 1), 3);
      if (slot === 'axel') return `${high}A`;
      const pair = pairs?.[0] ?? [2, 2];
      return slot === 'solo' ? `${high}${names?.[0] ?? 'F'}` : `${Math.max(...pair)}S+${Math.min(...pair)}T`;
    });
  }
  return [axel, ...['Lz', 'F', 'Lo', 'S', 'T'].map((name) => `${most}${name}`)].slice(0, wanted);
}

/** A layout that fits the content as far as it is known. */
function fitting({ rules, category }: Case): readonly string[] {
  const { content } = segmentRules(rules);
  const { spins, steps, choreo, jumpElements } = content;
  const spinLevel = level(rules.levels.spins(category).cap);
  const chosen = new Set<string>();
  for (const { codes } of spins.kinds) {
    const free = codes.find((code) => !chosen.has(code) && rules.values.row(`${code}${spinLevel}`) !== undefined);
    if (free !== undefined) chosen.add(free);
  }
  const most = spins.max ?? 1;
  if (spins.kinds.length === 0) for (const code of ['CCoSp', 'FSSp', 'LSp', 'CSSp']) chosen.add(code);
  return [
    ...jumpsFor(content, Math.min(jumpElements.max ?? 4, 6)),
    ...[...chosen].slice(0, most).map((code) => `${code}${spinLevel}`),
    ...((steps.max ?? 0) > 0 ? [`StSq${level(rules.levels.steps(category).cap)}`] : []),
    ...((choreo.max ?? 0) > 0 && choreo.forms.includes('ChSq') ? ['ChSq1'] : []),
  ];
}

/** Ways to break a layout. */
const BREAKS: readonly (readonly [string, (codes: readonly string[]) => readonly string[]])[] = [
  ['nothing at all', () => []],
  ['everything twice', (codes) => [...codes, ...codes]],
  ['the first jump five times', (codes) => [...codes, ...Array.from({ length: 4 }, () => codes[0] ?? '2A')]],
  ['units of three everywhere', (codes) => codes.map((code) => (code.includes('S') ? code : `${code}+2T+2Lo`))],
  ['quadruple jumps', (codes) => [...codes, '4T', '4S+3T', '4A']],
  ['many spins and sequences', (codes) => [...codes, 'CCoSp4', 'CCoSp4', 'LSp4', 'StSq4', 'StSq4', 'ChSq1', 'ChSq1']],
];

describe('check in every segment that is shipped', () => {
  it('knows dozens of them', () => {
    expect(CASES.length).toBeGreaterThan(100);
  });

  it('finds nothing broken in a layout that fits, never crashes, and says unknown where rules are', () => {
    const wrong = CASES.flatMap((one) => {
      const result = checkLayout(form(fitting(one), one), one.rules);
      if (!result.ok) return [`${one.name}: ${result.error.advice}`];
      const { verdicts, legal } = result.value;
      const broken = verdicts.filter((v) => v.status === 'broken').map((v) => v.message);
      const said = verdicts.some((v) => v.rule === 'segment' && v.status === 'unknown') && legal === null;
      if (broken.length > 0) return [`${one.name}, ${fitting(one).join(' ')}: ${broken.join(' ')}`];
      return segmentRules(one.rules).contentKnown || said ? [] : [`${one.name}: unknown content is not said`];
    });
    expect(wrong).toEqual([]);
  });

  it('gives every broken rule its cost, and is never legal where one is broken', () => {
    let broken = 0;
    for (const one of CASES) {
      for (const [how, change] of BREAKS) {
        const result = checkLayout(form(change(fitting(one)), one), one.rules);
        if (!result.ok) throw new Error(`${one.name}, ${how}: ${result.error.advice}`);
        const { verdicts, legal } = result.value;
        const told = (JSON.parse(JSON.stringify(checkJson(result.value))) as { verdicts: { cost?: unknown }[] })
          .verdicts;
        for (const [i, verdict] of verdicts.entries()) {
          expect(told[i], `${one.name}, ${how}`).toHaveProperty('cost');
          if (verdict.status !== 'broken') continue;
          broken++;
          expect(legal, `${one.name}, ${how}`).toBe(false);
          expect(verdict.cost ?? 0, `${one.name}, ${how}`).toBeGreaterThanOrEqual(0);
        }
        if (legal === true) expect(verdicts.every((v) => v.status === 'met')).toBe(true);
      }
    }
    expect(broken).toBeGreaterThan(CASES.length);
  });
});

describe('best in every segment that is shipped', () => {
  it('answers with a legal layout, or says what excludes one, and knows nothing of unknown content', () => {
    for (const one of CASES) {
      const inventory = form(fitting(one), one);
      const result = bestLayouts(inventory, one.rules, { kind: 'expected' });
      if (!result.ok) throw new Error(`${one.name}: ${result.error.advice}`);
      const { layouts, conflict, proven } = result.value;
      if (!segmentRules(one.rules).contentKnown) {
        expect([layouts.length, conflict.length, proven], one.name).toEqual([0, 1, false]);
        continue;
      }
      const [best] = layouts;
      if (best === undefined) {
        expect(conflict.length, one.name).toBeGreaterThan(0);
        continue;
      }
      const checked = checkLayout(form(best.codes, one), one.rules);
      expect(checked.ok && checked.value.legal, `${one.name}: ${best.codes.join(' ')}`).not.toBe(false);
    }
  });
});
