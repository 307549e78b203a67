import { memo } from 'react';
import type { Pronouns } from '../../../../src/notation/index.ts';
import type { CheckResult, MendStep, Verdict } from '../../../../src/programs/index.ts';
import type { StripNote } from '../../figures/strip-note.ts';
import { Asks, Why } from '../../parts/why.tsx';
import { Mark, Source } from '../../parts/mark.tsx';
import { words } from '../../words/index.ts';
import { clock, points } from '../../words/numbers.ts';
import type { ProgramRecordForms } from '../../data/history.ts';
import { MendButton, type MendQuestion } from './mend-button.tsx';

interface BrokenProps {
  readonly check: CheckResult;
  readonly notes: readonly StripNote[];
  readonly seconds: number;
  readonly forms: ProgramRecordForms;
  readonly pronouns: Pronouns;
  readonly question: () => MendQuestion;
  readonly onMend: (steps: readonly MendStep[], said: string) => void;
}

/** Broken rules hang beneath the place they concern, with the way to mend them; what concerns the whole stands at the left. */
export function Broken({ check, notes, seconds, forms, pronouns, question, onMend }: BrokenProps) {
  const broken = check.verdicts.filter((v) => v.status === 'broken');
  const codes = notes.map((n) => n.code).join();
  if (broken.length === 0) return null;
  return (
    <ul style={{ listStyle: 'none', padding: 0 }} aria-label="Broken rules">
      {broken.map((v) => {
        const first = notes[(v.elements[0] ?? 0) - 1];
        const at = first === undefined ? 0 : Math.round((first.start / seconds) * 100);
        return (
          <li key={v.rule + v.message} className="beneath" style={{ '--at': `${at}%` } as React.CSSProperties}>
            <div className="verdict broken flow">
              <Asks>
                <b>
                  {first === undefined
                    ? 'Broken'
                    : `Broken, ${v.elements.map((no) => named(notes[no - 1])).join(', ')}`}
                </b>
                {v.message}
                <Mark citation={v.citation} /> <Cost verdict={v} rulebook={check.rulebook} />
              </Asks>
              {/* Another layout asks anew: what was offered for the old one may not fit. */}
              <MendButton
                key={codes}
                rule={v.rule}
                forms={forms}
                pronouns={pronouns}
                question={question}
                onMend={onMend}
              />
            </div>
          </li>
        );
      })}
    </ul>
  );
}

const named = (note: StripNote | undefined): string =>
  note === undefined ? '' : `${note.code} at ${clock(note.start)}`;

/** What a broken rule costs on the day, and why. */
function Cost({ verdict, rulebook }: { verdict: Verdict; rulebook: string }) {
  const { cost, citation } = verdict;
  const said =
    cost === null
      ? 'What it costs on the day is not known.'
      : cost === 0
        ? 'Nothing is lost by it.'
        : `On the day: ${points(cost)} points.`;
  return (
    <Why
      about={said}
      answer={
        <>
          <p>
            The elements are called in skating order as a panel would, with everything skated as planned. The cost is
            what the elements concerned would bring without this rule, less what they bring with it, in base values of{' '}
            {rulebook}.
          </p>
          <p>
            <Source citation={citation} />
          </p>
        </>
      }
    >
      {said}
    </Why>
  );
}

const ASK = 'unknown: check your chart. As far as known: ';

/** The sentence of a verdict without the warning that its list already carries. */
export const bare = (message: string): string => message.replace(ASK, '');

/** What is not known is gathered under one sentence; what is met stays quiet. Every verdict has its source. */
export const Verdicts = memo(
  function Verdicts({ check }: { check: CheckResult }) {
    const broken = check.verdicts.filter((v) => v.status === 'broken');
    const open = check.verdicts.filter((v) => v.status === 'unknown');
    const met = check.verdicts.filter((v) => v.status === 'met');
    const all = check.verdicts.reduce((most, v) => Math.max(most, v.elements.length), 0);
    return (
      <>
        {broken.length > 0 && (
          <p>
            {broken.length === 1 ? 'One rule is broken: it stands' : `${broken.length} rules are broken: they stand`}{' '}
            beneath the music.
          </p>
        )}
        {open.length > 0 && (
          <>
            <p>
              <b>Not established for this chart.</b> As far as known, the chart asks this; check it against your own:
            </p>
            <List verdicts={open} kind="unknown" all={all} />
          </>
        )}
        <BaseValues check={check} />
        {met.length > 0 && (
          <details className="drawer">
            <summary>
              {met.length} {met.length === 1 ? 'rule is' : 'rules are'} met
            </summary>
            <List verdicts={met} kind="" all={all} />
          </details>
        )}
      </>
    );
  },
  // Every movement of a note asks the rules again; most answers are the same, and are not drawn anew.
  (before, after) => JSON.stringify(before.check) === JSON.stringify(after.check),
);

function BaseValues({ check }: { check: CheckResult }) {
  const { base, withBonus, rulebook } = check;
  if (base === null || withBonus === null)
    return <p className="quiet">The sum of base values is {words.notKnown}: one of them is not.</p>;
  const answer = (
    <p>
      The sum of the base values of all elements, as a panel would call them if everything is skated as planned; repeats
      and surplus elements as the rules say. With the second half, the factor on the last jump elements is in it.
      Values: {rulebook}.
    </p>
  );
  return (
    <p>
      Base values{' '}
      <Why about={`${words.why} ${points(base)}`} answer={answer}>
        {points(base)}
      </Why>
      {base !== withBonus && (
        <>
          , with the second half{' '}
          <Why about={`${words.why} ${points(withBonus)}`} answer={answer}>
            {points(withBonus)}
          </Why>
        </>
      )}
      .
    </p>
  );
}

function List({ verdicts, kind, all }: { verdicts: readonly Verdict[]; kind: string; all: number }) {
  return (
    <ul className="stack" style={{ listStyle: 'none', padding: 0, marginTop: '.5rem' }}>
      {verdicts.map((v) => (
        <li key={v.rule + v.message} className={`verdict flow ${kind}`}>
          {v.elements.length > 0 && v.elements.length < all && (
            <b>
              {v.elements.length === 1 ? 'Element' : 'Elements'} {v.elements.join(', ')}
            </b>
          )}
          {bare(v.message)}
          <Mark citation={v.citation} />
          {v.cost !== null && v.cost !== 0 && <span> On the day: {points(v.cost)} points.</span>}
          <span className="small quiet"> {v.citation.source}</span>
        </li>
      ))}
    </ul>
  );
}
