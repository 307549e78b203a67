import type { CheckResult, Verdict } from '../../../../src/programs/index.ts';
import type { StripNote } from '../../figures/layout-strip.tsx';
import { clock, points } from '../../words/numbers.ts';
import { Mark } from '../rules/rules.tsx';

/** Broken rules hang beneath the place they concern; what concerns the whole stands at the left. */
export function Broken({
  check,
  notes,
  seconds,
}: {
  check: CheckResult;
  notes: readonly StripNote[];
  seconds: number;
}) {
  const broken = check.verdicts.filter((v) => v.status === 'broken');
  if (broken.length === 0) return null;
  return (
    <ul style={{ listStyle: 'none', padding: 0 }} aria-label="Broken rules">
      {broken.map((v) => {
        const first = notes[(v.elements[0] ?? 0) - 1];
        const at = first === undefined ? 0 : Math.round((first.start / seconds) * 100);
        return (
          <li key={v.rule + v.message} className="beneath" style={{ '--at': `${at}%` } as React.CSSProperties}>
            <div className="verdict broken flow">
              <b>
                {first === undefined ? 'Broken' : `Broken, ${v.elements.map((no) => named(notes[no - 1])).join(', ')}`}
              </b>
              {v.message}
              <Mark citation={v.citation} />
              {v.cost !== null && v.cost !== 0 && <> On the day: {points(v.cost)} points.</>}
              <span className="small quiet"> {v.citation.source}</span>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

const named = (note: StripNote | undefined): string =>
  note === undefined ? '' : `${note.code} at ${clock(note.start)}`;

const ASK = 'unknown: check your chart. As far as known: ';

/** The sentence of a verdict without the warning that its list already carries. */
export const bare = (message: string): string => message.replace(ASK, '');

/** What is not known is gathered under one sentence; what is met stays quiet. Every verdict has its source. */
export function Verdicts({ check }: { check: CheckResult }) {
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
      {met.length > 0 && (
        <details className="drawer">
          <summary>
            {met.length} {met.length === 1 ? 'rule is' : 'rules are'} met
          </summary>
          <List verdicts={met} kind="" all={all} />
        </details>
      )}
      {check.base !== null && check.withBonus !== null && (
        <details className="drawer">
          <summary>
            Base values <span className="n">{points(check.base)}</span>
            {check.base === check.withBonus ? '' : `, with the second half ${points(check.withBonus)}`}: why?
          </summary>
          <p>
            The sum of the base values of all elements, as a panel would call them if everything is skated as planned;
            repeats and surplus elements as the rules above say. Values: {check.rulebook}.
          </p>
        </details>
      )}
    </>
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
