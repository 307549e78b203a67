import type { ChosenRules, Hundredths } from '../../rulebook/index.ts';
import type { Protocol } from '../protocol.ts';
import { componentPoints } from '../segment.ts';
import type { WrongPart } from './follows.ts';
import { componentSlip } from './known-slips.ts';
import type { MeasuredComponent } from './measure.ts';
import { ownFactor, type OwnValue } from './own-values.ts';
import type { Rows } from './panel-way.ts';
import { figuresOf, findingOf, partOf, type Figures, type Wrong } from './wrong-figure.ts';

/** Panel means and factors of the components; the parts are in factored points. */
export function componentFigures(rows: Rows, rules: ChosenRules, protocol: Protocol): Figures {
  const scores = rows.components.map((row, index) => meanFigure(row, index, rows));
  const wrong = scores.filter((one) => one !== null);
  const factors = factorFigures(rows, rules, protocol);
  const parts = scores.flatMap((one, index) => factoredPart(one, rows.components[index]) ?? []);
  return { findings: [...figuresOf(wrong).findings, ...factors.findings], parts: [...parts, ...factors.parts] };
}

function meanFigure(row: MeasuredComponent, index: number, rows: Rows): Wrong | null {
  const published = row.printed.score;
  const expected = row.score;
  if (published === null || expected === null || published === expected) return null;
  return {
    at: `components[${index}].score`,
    published,
    expected,
    what: `score of the component ${row.printed.name}`,
    from: 'its printed marks make',
    slip: componentSlip(row, rows.panel),
  };
}

/** What a wrong panel mean adds to the component total. */
function factoredPart(wrong: Wrong | null, row: MeasuredComponent | undefined): WrongPart | null {
  const published = componentPoints(wrong?.published ?? null, row?.factor ?? null);
  if (wrong === null || published === null || row?.points == null || published === row.points) return null;
  return { ...partOf(wrong), delta: published - row.points };
}

/**
 * Printed factors against the rulebook's. A sheet that closes with its own factors keeps them (the
 * category may be another one than the rulebook thinks); one that closes only with the rulebook's, or
 * whose factors differ among themselves, has a wrong figure.
 */
function factorFigures(rows: Rows, rules: ChosenRules, protocol: Protocol): Figures {
  const known = rules.values.components(rules.category, rules.segment).factor;
  if (known === null || protocol.category === null || protocol.segment === null) return figuresOf([]);
  const factors = new Set(rows.components.map((row) => row.factor));
  const sum = rows.components.reduce((total, row) => total + (row.points ?? 0), 0);
  if (factors.size === 1 && (protocol.pcs === null || protocol.pcs === sum)) return figuresOf([]);
  const wrongs = rows.components.flatMap((row, index) => factorFigure(row, index, known, ownFactor(rules)) ?? []);
  return {
    findings: wrongs.map(findingOf),
    parts: wrongs.flatMap((wrong) => {
      const row = rows.components.find((_, index) => wrong.at === `components[${index}].factor`);
      const delta = (componentPoints(row?.score ?? null, known) ?? 0) - (row?.points ?? 0);
      return delta === 0 ? [] : [{ root: wrong.at, kind: 'calculation' as const, delta, own: wrong.own ?? null }];
    }),
  };
}

function factorFigure(row: MeasuredComponent, index: number, known: Hundredths, own: OwnValue): Wrong | null {
  const published = row.printed.factor;
  if (published === null || published === known) return null;
  return {
    at: `components[${index}].factor`,
    published,
    expected: known,
    what: `factor of the component ${row.printed.name}`,
    from: 'for this category and segment the rulebook has',
    slip: 'wrong factor',
    own,
  };
}
