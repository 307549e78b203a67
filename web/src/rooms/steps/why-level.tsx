import type { Move, StepLevel, StepLimit } from '../../../../src/levels/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { Source } from '../../parts/mark.tsx';
import { words } from '../../words/index.ts';

interface WhyLevelProps {
  readonly moves: readonly Move[];
  readonly result: StepLevel;
  readonly rules: ChosenRules;
}

interface Demand {
  readonly what: string;
  readonly has: string;
  readonly met: boolean | null;
  readonly limit: StepLimit;
  /** Field of the step rules that it stands in. */
  readonly field: string;
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

const CLUSTERS = {
  different: 'two clusters that differ, each of two types or more',
  any: 'two clusters, each of two types or more',
  'five-types': 'two clusters that hold all five types between them',
} as const;

function demands({ result, rules }: WhyLevelProps): readonly Demand[] {
  const asked = rules.levels.steps(rules.category);
  const third = `${asked.share.of} of ${asked.share.parts} parts of the pattern`;
  const { turns, rotation, body, clusters } = result;
  return [
    {
      what: `Turns: ${asked.turnCounts.join(', ')} for turn levels 1, 2, 3; ${asked.complexityCells} kinds of turn and direction for 4; a type counts at most ${asked.maxPerType} times`,
      has: `${turns.counted} count, in ${turns.directions} kinds: turn level ${turns.level}`,
      met: null,
      limit: 'turns',
      field: 'turnCounts',
    },
    {
      what: `Full rotations to the left and to the right, each over ${third}`,
      has: `left ${percent(rotation.left)}, right ${percent(rotation.right)}`,
      met: rotation.met,
      limit: 'rotation',
      field: 'share',
    },
    {
      what: `Body movements over ${third}`,
      has: percent(body.share),
      met: body.met,
      limit: 'body',
      field: 'share',
    },
    {
      what: `Clusters of three turns on one foot: ${CLUSTERS[asked.clusterRule]}`,
      has: clusters.reason ?? `${clusters.attempts.length} of two`,
      met: clusters.met,
      limit: 'clusters',
      field: 'clusterRule',
    },
    {
      what: asked.cap === null ? 'The highest level of this category' : `At most level ${asked.cap} in this category`,
      has: asked.cap === null ? words.notKnown : words.steps.level(`${result.level}`).toLowerCase(),
      met: null,
      limit: 'cap',
      field: 'cap',
    },
  ];
}

/** Which rule holds the level where it is: what is asked, what the line has, and the source with its mark. */
export function WhyLevel(props: WhyLevelProps) {
  const { result, rules } = props;
  const holding = new Set(result.limitedBy);
  return (
    <>
      <p>
        {words.steps.asks}. The level is the lowest of three: the turn level, one more than the conditions met of
        rotation, body and clusters, and the category’s highest (inferred from the published list of features).
      </p>
      <ul className="stack">
        {demands(props).map((d) => (
          <li key={d.limit} className={holding.has(d.limit) ? 'verdict flow broken' : 'verdict flow'}>
            {d.what}: <b>{d.has}</b>
            {d.met === null ? '' : ` (${d.met ? words.steps.met : words.steps.notMet})`}
            {holding.has(d.limit) && `; ${words.steps.holds}`}.{' '}
            <Source citation={rules.levels.citation(`steps.${rules.category}.${d.field}`)} />
          </li>
        ))}
      </ul>
      {holding.size === 0 && <p>{words.steps.nothingHolds}</p>}
    </>
  );
}
