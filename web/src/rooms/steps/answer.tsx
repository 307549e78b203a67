import { levelWhen, planOf, type Move, type StepLevel } from '../../../../src/levels/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { StepLine } from '../../figures/step-line.tsx';
import { Row } from '../../parts/frame.tsx';
import { LevelChances } from '../../parts/level-chances.tsx';
import { Source } from '../../parts/mark.tsx';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { nameOf } from './names.ts';
import { WhyLevel } from './why-level.tsx';

interface AnswerProps {
  readonly moves: readonly Move[];
  readonly result: StepLevel;
  readonly rules: ChosenRules;
}

/** The line broken where the rule breaks it, on its two tracks, and what it brings. */
export function Answer({ moves, result, rules }: AnswerProps) {
  const weakest = standsOut(result.critical, moves);
  return (
    <>
      <Row about="The line" aside="broken where the rule breaks it" wide>
        <Parts moves={moves} result={result} />
        <figure className="fig" style={{ marginTop: '1.25rem' }}>
          <StepLine moves={moves} result={result} weakest={weakest} />
          <figcaption>
            <b>The step line.</b> Whole is forward, dashed is backward; a full dot counts, an open one does not. The
            capsules are the clusters.
          </figcaption>
        </figure>
      </Row>
      <Row about="What it brings" className="spaced">
        <p className="say">
          <Why about={words.steps.whyLevel} answer={<WhyLevel moves={moves} result={result} rules={rules} />}>
            {words.steps.level(`${result.level}`)}
          </Why>
          {words.steps.counted(result.turns.counted, result.turns.directions)}
        </p>
        <Spare moves={moves} result={result} rules={rules} />
        {result.limitedBy.length > 0 && (
          <p>What holds it there: {result.limitedBy.map((l) => LIMITS[l]).join(', ')}.</p>
        )}
        <Critical moves={moves} result={result} rules={rules} />
        <LevelChances chances={result.chances} />
        {result.uncounted.length > 0 && (
          <details className="drawer">
            <summary>{words.steps.someDoNotCount}</summary>
            <ul>
              {result.uncounted.map((u) => (
                <li key={u.index}>
                  {nameOf(moves[u.index])}: {u.reason}
                </li>
              ))}
            </ul>
          </details>
        )}
      </Row>
    </>
  );
}

/** The turn credited least often of those that the level hangs on; null where none is alone in that. */
function standsOut(critical: readonly number[], moves: readonly Move[]): number | null {
  const creditOf = (i: number) => moves[i]?.credit ?? 1;
  const [first, second] = critical.toSorted((a, b) => creditOf(a) - creditOf(b));
  if (first === undefined) return null;
  return second === undefined || creditOf(first) < creditOf(second) ? first : null;
}

const LIMITS: Readonly<Record<StepLevel['limitedBy'][number], string>> = {
  turns: 'the number of turns',
  rotation: 'rotations to both sides',
  body: 'body movements',
  clusters: 'the clusters',
  cap: 'the category’s highest level',
};

function Parts({ moves, result }: Pick<AnswerProps, 'moves' | 'result'>) {
  const inside = new Set(result.clusters.attempts.flatMap((c) => c.moves));
  const counted = new Set(result.counted);
  const outside = moves.flatMap((m, i) => (inside.has(i) ? [] : [{ m, i }]));
  return (
    <ul className="parts">
      {result.clusters.attempts.map((c) => (
        <li key={c.foot}>
          <span className="k">cluster on the {c.foot === 'L' ? 'left' : 'right'}</span>
          <span className="t">{c.moves.map((i) => nameOf(moves[i])).join(' · ')}</span>
        </li>
      ))}
      {outside.length > 0 && (
        <li>
          <span className="k">outside the clusters</span>
          <span className="t">
            {outside.map(({ m, i }, k) => (
              <span key={i}>
                {k > 0 && ' · '}
                {counted.has(i) ? nameOf(m) : <i>{nameOf(m)}</i>}
              </span>
            ))}
          </span>
        </li>
      )}
    </ul>
  );
}

function spareSentence({ spare }: StepLevel): string {
  if (spare === null) return words.steps.spareNone;
  return spare === 0 ? words.steps.spareZero : words.steps.spare(spare);
}

function Spare({ result, rules }: AnswerProps) {
  const citation = rules.levels.citation(`steps.${rules.category}.turnCounts`);
  return (
    <p>
      <Why
        about={words.steps.whySpare}
        answer={
          <>
            <p>{words.steps.spareRule}</p>
            <p>
              {result.turns.counted} turns count here, in {result.turns.directions} kinds of turn and direction; turn
              level {result.turns.level}.
            </p>
            <p>
              <Source citation={citation} />
            </p>
          </>
        }
      >
        {spareSentence(result)}
      </Why>
    </p>
  );
}

/** The turns whose single loss lowers the level; each says what is then left. */
function Critical({ moves, result, rules }: AnswerProps) {
  if (result.critical.length === 0) return null;
  const plan = planOf(moves, rules.levels.steps(rules.category));
  const inside = new Set(result.clusters.attempts.flatMap((c) => c.moves));
  const citation = (i: number) =>
    rules.levels.citation(`steps.${rules.category}.${inside.has(i) ? 'clusterRule' : 'turnCounts'}`);
  return (
    <p>
      {words.steps.hangsOn}{' '}
      {result.critical.map((i, k) => {
        const left = words.steps.level(`${levelWhen(plan, (other) => other !== i)}`);
        return (
          <span key={i}>
            {k > 0 && ', '}
            <Why
              about={words.steps.whyCritical(nameOf(moves[i]), left.toLowerCase())}
              answer={
                <>
                  <p>{inside.has(i) ? words.steps.inCluster : words.steps.outside}</p>
                  <p>
                    <Source citation={citation(i)} />
                  </p>
                </>
              }
            >
              {nameOf(moves[i])}
            </Why>
          </span>
        );
      })}
      .
    </p>
  );
}
