import type { ChosenRules, Citation } from '../rulebook/index.ts';
import { listed } from './words.ts';

/** A rule that an answer rests on, in words, with its source and mark. */
export interface RuleSource extends Citation {
  readonly rule: string;
}

/** The rules behind the level of a step sequence. */
export function stepSources(chosen: ChosenRules): RuleSource[] {
  const rules = chosen.levels.steps(chosen.category);
  const of = sourceIn(chosen, 'steps');
  const clusters = { different: 'two different', any: 'any types, two or more each', 'five-types': 'all five types' };
  return [
    of(`turns for levels 1 to 3: ${rules.turnCounts.join(', ')}`, 'turnCounts'),
    of(`for level 4: ${rules.complexityCells} types and directions`, 'complexityCells'),
    of(`a type counts at most ${rules.maxPerType} times`, 'maxPerType'),
    of(`combinations: ${clusters[rules.clusterRule]}`, 'clusterRule'),
    of(`shares of ${rules.share.of}/${rules.share.parts}`, 'share'),
    of(rules.cap === null ? 'highest level not known' : `highest level ${rules.cap}`, 'cap'),
  ];
}

/** The rules behind the level of a spin. */
export function spinSources(chosen: ChosenRules): RuleSource[] {
  const rules = chosen.levels.spins(chosen.category);
  const of = sourceIn(chosen, 'spins');
  return [
    of(`list of ${rules.features.length} features`, 'features'),
    of(`at most ${rules.maxFeaturesPerFoot} on one foot`, 'maxFeaturesPerFoot'),
    of(`${rules.revolutionsPerPosition} revolutions in a position`, 'revolutionsPerPosition'),
    of(rules.gate.length === 0 ? 'no condition for level 4' : 'a condition for level 4', 'gate'),
    of(
      rules.maxVariations === null ? 'no limit of variations' : `at most ${rules.maxVariations} variations`,
      'maxVariations',
    ),
    of(rules.cap === null ? 'highest level not known' : `highest level ${rules.cap}`, 'cap'),
  ];
}

const sourceIn =
  (chosen: ChosenRules, family: 'steps' | 'spins') =>
  (rule: string, field: string): RuleSource => ({
    rule,
    ...chosen.levels.citation(`${family}.${chosen.category}.${field}`),
  });

/** Small letter after a rule: m from memory, p provisional, y your own entry; none: published and read. */
const markOf = ({ status, provisional }: Citation): string => {
  if (status === 'local') return 'ʸ';
  return provisional ? 'ᵖ' : status === 'memory' ? 'ᵐ' : '';
};

const MEANINGS = { ʸ: 'ʸ your own entry', ᵖ: 'ᵖ provisional', ᵐ: 'ᵐ from memory' } as const;

/** The rules in one sentence with their marks, and what the marks mean. */
export function printSources(sources: readonly RuleSource[]): string {
  const marks = (['ʸ', 'ᵖ', 'ᵐ'] as const).filter((mark) => sources.some((one) => markOf(one) === mark));
  const meaning = marks.length === 0 ? '' : ` (${listed(marks.map((mark) => MEANINGS[mark]))})`;
  return `Rules used: ${sources.map((one) => `${one.rule}${markOf(one)}`).join('; ')}${meaning}.`;
}
