import { formatElement, withoutCalls, type Element, type Jump } from '../notation/index.ts';
import { elementValue, jumpRowCode } from '../scoring/index.ts';
import { lineOf, type AdviceBasis } from './advice-basis.ts';
import { joined, reductionRule, rowRule, ruleText, trustMark, type RuleText } from './sources.ts';
import type { LedgerEntry } from './types.ts';

/** The rule behind a piece of advice, with marks of trust on its figures. */
export function adviceRule(entry: LedgerEntry, element: Element | null, basis: AdviceBasis): RuleText {
  const { values, deductions, category } = basis.rules;
  switch (entry.cause) {
    case 'rotation':
      return callRule(element, 'rotation', basis);
    case 'edge':
      return callRule(element, 'edge', basis);
    case 'fall':
      return joined([reductionRule(['fall'], values), fallRule(basis)]);
    case 'level':
      return element?.kind === 'steps' ? stepRule(basis) : spinRule(basis);
    case 'V':
      return joined([positionRule(basis), ...(element === null ? [] : [valueRule(element, basis)])]);
    case 'execution':
    case 'components':
      return ruleText('Judges do not publish reasons for a grade or a mark.');
    case 'repeat':
      return percentRule('A repeated jump keeps', values.values.repeatPercent, 'values.repeatPercent', basis);
    case 'second-half':
      return percentRule('The second half counts', values.values.secondHalfPercent, 'values.secondHalfPercent', basis);
    case 'content':
      return contentRule(entry, basis);
    case 'no-value':
      return element === null ? ruleText('') : valueRule(withoutCalls(element), basis);
    case 'deduction':
    case 'bonus':
      return ruleText(`Deductions of season ${deductions.season}.`, deductions.citation(`deductions.${category}`));
  }
}

const valueRule = (element: Element, basis: AdviceBasis): RuleText => {
  const { row } = elementValue(basis.rules.values, element);
  return rowRule(row, row?.code ?? formatElement(element));
};

/** What the planned and the skated element are worth. */
function contentRule(entry: LedgerEntry, basis: AdviceBasis): RuleText {
  const line = lineOf(entry, basis.lines);
  if (line === null || line.kind === 'unreadable') return ruleText('');
  const planned = line.kind === 'missing' ? line.planned.element : line.reference.element;
  const skated = line.kind === 'missing' ? [] : [baseText(line.skated.element, basis)];
  return joined([...(line.kind === 'added' ? [] : [baseText(planned, basis)]), ...skated]);
}

/** Base value of a whole element, `3Lz+3T: 10.10.`, with the source of its row. */
function baseText(element: Element, basis: AdviceBasis): RuleText {
  const { base, row } = elementValue(basis.rules.values, element);
  const code = formatElement(element);
  if (base === null) return ruleText(`${code}: its value is not known.`);
  return row === null
    ? ruleText(`${code} has no value.`)
    : ruleText(`${code} is worth ${(base / 100).toFixed(2)}${trustMark(row.citation)}.`, row.citation);
}

function callRule(element: Element | null, kind: 'rotation' | 'edge', basis: AdviceBasis): RuleText {
  if (element?.kind !== 'jump') return ruleText('');
  const called = element.jumps.filter((jump) => jump[kind] !== null);
  const signs = called.flatMap((jump) => jump[kind] ?? []);
  return joined([...called.map((jump) => calledRow(jump, basis)), reductionRule(signs, basis.rules.values)]);
}

function calledRow(jump: Jump, basis: AdviceBasis): RuleText {
  const code = jumpRowCode(jump);
  return code === null ? ruleText('') : rowRule(basis.rules.values.row(code) ?? null, code);
}

function fallRule({ rules: { deductions, category, segment } }: AdviceBasis): RuleText {
  const { falls } = deductions.deductions(category, segment);
  const first = falls?.[0];
  const citation = deductions.citation(`deductions.${category}.falls`);
  if (first === undefined) return ruleText('What a fall deducts is not known.', citation);
  return ruleText(`A fall deducts ${(Math.abs(first) / 100).toFixed(2)}${trustMark(citation)}.`, citation);
}

function stepRule({ rules: { levels, category } }: AdviceBasis): RuleText {
  const { turnCounts, complexityCells } = levels.steps(category);
  const citation = levels.citation(`steps.${category}.turnCounts`);
  const counts = [...turnCounts, complexityCells].join(', ');
  return ruleText(`Difficult turns for levels 1 to 4: ${counts}${trustMark(citation)}.`, citation);
}

const spinRule = ({ rules: { levels, category } }: AdviceBasis): RuleText =>
  ruleText('The number of features gives the level.', levels.citation(`spins.${category}.features`));

function positionRule({ rules: { levels, category } }: AdviceBasis): RuleText {
  const { revolutionsPerPosition } = levels.spins(category);
  const citation = levels.citation(`spins.${category}.revolutionsPerPosition`);
  return ruleText(
    `A position counts from ${revolutionsPerPosition} continuous revolutions${trustMark(citation)}.`,
    citation,
  );
}

function percentRule(what: string, percent: number, path: string, { rules: { values } }: AdviceBasis): RuleText {
  const citation = values.citation(path);
  return ruleText(`${what} ${percent} % of the base value${trustMark(citation)}.`, citation);
}
