import { Button } from 'react-aria-components';
import type { BestLayout, Objective } from '../../../../src/programs/index.ts';
import type { BestAnswer } from '../../data/program.worker.ts';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { days, exact, points, tenths } from '../../words/numbers.ts';

/** A value of an objective in words: points, or days of twenty. */
const valueOf = (value: number, { kind }: Objective): string => (kind === 'chance' ? days(value) : tenths(value));

interface SoFarProps {
  readonly answer: BestAnswer | null;
  readonly elements: number;
  readonly onStop: () => void;
}

/** How far the search is: the best so far, and what no layout can pass. */
export function SoFar({ answer, elements, onStop }: SoFarProps) {
  const best = answer?.best.layouts[0];
  const bound = answer?.best.bound ?? null;
  return (
    <div className="stack" role="status">
      <p>
        {words.layout.trying(elements)} {answer !== null && words.layout.seconds(answer.seconds.toFixed(0))}
      </p>
      {answer !== null && (
        <p>
          {best === undefined ? (
            words.layout.noneYet
          ) : (
            <>
              {words.layout.bestSoFar}: <b>{valueOf(best.value, answer.best.objective)}</b>
              {bound !== null && <>; {words.layout.atMost(valueOf(bound, answer.best.objective))}</>}.
            </>
          )}
        </p>
      )}
      <div className="tie">
        <Button className="btn" onPress={onStop}>
          {words.layout.stop}
        </Button>
      </div>
    </div>
  );
}

interface FoundProps {
  readonly answer: BestAnswer;
  readonly stopped: boolean;
  readonly onKeep: (codes: readonly string[]) => void;
}

/** What was found, with the safe alternative and the next ones; never "the right program". */
export function Found({ answer, stopped, onKeep }: FoundProps) {
  const [best, ...next] = answer.best.layouts;
  if (best === undefined) return <Nothing answer={answer} stopped={stopped} />;
  const safe = answer.safe?.layouts[0];
  return (
    <div className="stack">
      <p className="say">{words.layout.bestOf}</p>
      <p>
        <b className="code" style={{ whiteSpace: 'normal' }}>
          {best.codes.join(' · ')}
        </b>
      </p>
      <Worth answer={answer} best={best} stopped={stopped} />
      {safe !== undefined && <p>{safeSentence(best, safe)}</p>}
      <div className="tie">
        <Button className="btn" onPress={() => onKeep(best.codes)}>
          Keep it as a version to compare
        </Button>
      </div>
      {next.length > 0 && <Next best={best} next={next} objective={answer.best.objective} onKeep={onKeep} />}
      {[...answer.best.excluded.map(({ code, why }) => `Left out: ${code}: ${why}.`), ...answer.best.warnings].map(
        (w) => (
          <p key={w} className="small quiet">
            {w}
          </p>
        ),
      )}
      <p className="small quiet">{words.layout.caution}</p>
    </div>
  );
}

function Nothing({ answer, stopped }: Omit<FoundProps, 'onKeep'>) {
  if (stopped || !answer.best.proven) return <p>{words.layout.noneYet}</p>;
  return (
    <>
      <p>
        <b>No legal layout can be made of these elements.</b>
      </p>
      <ul>
        {answer.best.conflict.map((c) => (
          <li key={c}>{c}</li>
        ))}
      </ul>
    </>
  );
}

function Worth({ answer, best, stopped }: Omit<FoundProps, 'onKeep'> & { best: BestLayout }) {
  const { objective, proven, bound, searched, rulebook } = answer.best;
  const closed = proven ? words.layout.closed : words.layout.open(bound === null ? null : valueOf(bound, objective));
  return (
    <p>
      {objective.kind === 'chance' && (
        <>
          {points(objective.target)} or more {days(best.value)} <span className="only">{words.coachOnly}</span>.{' '}
        </>
      )}
      On average{' '}
      <Why
        about={`${words.why} ${tenths(best.expected)}`}
        answer={
          <>
            <p>
              The mean of the exact distribution of this layout, from the outcomes you entered and those learnt from the
              sheets, called under {rulebook}. Its spread is {tenths(best.sd)}: eight days of ten lie within 1.3
              spreads.
            </p>
            {objective.kind === 'chance' && (
              <p>
                Exact value of the model: <span className="n">{exact(best.value)}</span>.
              </p>
            )}
            <p>
              {searched} layouts were looked at one by one; all others were left out because a bound shows that they
              cannot win.
            </p>
          </>
        }
      >
        {tenths(best.expected)}
      </Why>
      ; scores like this usually lie within {tenths(1.3 * best.sd)} of it. {stopped && words.layout.stopped} {closed}
    </p>
  );
}

interface NextProps {
  readonly best: BestLayout;
  readonly next: readonly BestLayout[];
  readonly objective: Objective;
  readonly onKeep: (codes: readonly string[]) => void;
}

function Next({ best, next, objective, onKeep }: NextProps) {
  return (
    <details className="drawer" open>
      <summary>{words.layout.others}</summary>
      <ul className="ways">
        {next.map((one) => (
          <li key={one.codes.join()}>
            <p>{versus(best, one, objective)}</p>
            <Button
              className="btn"
              aria-label={`Keep as a version: ${one.codes.join(', ')}`}
              onPress={() => onKeep(one.codes)}
            >
              Keep as a version
            </Button>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Two averages closer than this share of the spread are not told apart by one program. */
const NOISE = 0.1;
/** Spreads below the mean that nine days of ten pass. */
const LOW_DAY = 1.28;

const lowDay = ({ expected, sd }: BestLayout): number => expected - LOW_DAY * sd;
const sameCodes = (a: BestLayout, b: BestLayout): boolean => a.codes.toSorted().join() === b.codes.toSorted().join();

function safeSentence(best: BestLayout, safe: BestLayout): string {
  if (sameCodes(best, safe)) return words.layout.safest;
  const gap = best.expected - safe.expected;
  const size = gap < NOISE * best.sd ? 'no real difference on average' : `${tenths(gap)} less on average`;
  return `The safe alternative, ${safe.codes.join(' · ')}: ${size}, and ${tenths(safe.value)} or more on nine of ten days.`;
}

function versus(best: BestLayout, other: BestLayout, objective: Objective): string {
  const without = best.codes.filter((code) => !other.codes.includes(code));
  const instead = other.codes.filter((code) => !best.codes.includes(code));
  const what =
    instead.length === 0 && without.length === 0
      ? `In another order, ${other.codes.join(' · ')}`
      : `${instead.join(', ') || 'Nothing'} in place of ${without.join(', ') || 'nothing'}`;
  return `${what}: ${givesUp(best, other, objective)}.`;
}

/** What a runner-up gives up, on average and on the worse days; inside the noise it says so. */
function givesUp(best: BestLayout, other: BestLayout, objective: Objective): string {
  const gap = best.expected - other.expected;
  const low = lowDay(best) - lowDay(other);
  const average = Math.abs(gap) < NOISE * best.sd ? 'no real difference on average' : more(gap, 'on average');
  const worse = Math.abs(low) < NOISE * best.sd ? '' : `, ${more(low, 'on the worse days')}`;
  const reached = objective.kind === 'chance' ? `reached ${days(other.value)}; ` : '';
  return `${reached}${average}${worse}`;
}

const more = (gap: number, when: string): string => `${tenths(Math.abs(gap))} ${gap > 0 ? 'less' : 'more'} ${when}`;
