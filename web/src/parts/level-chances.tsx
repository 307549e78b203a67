import type { StepChances } from '../../../src/levels/index.ts';
import { Tally } from '../figures/range-strip.tsx';
import { words } from '../words/index.ts';
import { days, exact } from '../words/numbers.ts';
import { Why } from './why.tsx';

const LEVELS = [4, 3, 2, 1, 'B'] as const;
/** Less than once in two thousand days is not worth a line; what is nearly sure neither, where asked. */
const SEEN = 0.0005;

interface LevelChancesProps {
  readonly chances: StepChances;
  /** Leave out a level that is as good as sure; the sentence above it has said so. */
  readonly withoutSure?: boolean;
}

/** On how many of twenty days each level comes, highest first; for the coach alone. */
export function LevelChances({ chances, withoutSure }: LevelChancesProps) {
  const most = withoutSure === true ? 1 - SEEN : Infinity;
  return (
    <ul className="sums" style={{ marginTop: '1rem' }}>
      {LEVELS.filter((level) => chances[level] >= SEEN && chances[level] < most).map((level) => (
        <li key={level}>
          <span className="n">{level === 'B' ? 'Basic' : `level ${level}`}</span>
          <p className="tie">
            <Tally p={chances[level]} label={days(chances[level])} />
            <Why
              about={`${words.why} ${days(chances[level])}`}
              answer={<p>{words.season.whyChance(exact(chances[level]))}</p>}
            >
              {days(chances[level])}
            </Why>
            <span className="only">coach only</span>
          </p>
        </li>
      ))}
    </ul>
  );
}
