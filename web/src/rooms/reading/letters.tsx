import type { Pronouns } from '../../../../src/notation/index.ts';
import { toldInWords, toldUse, type FeedbackEntry } from '../../../../src/reading/index.ts';
import { Why } from '../../parts/why.tsx';
import { capital } from '../../words/capital.ts';
import type { PageProps } from './reading-page.tsx';
import { Rule } from './why-entry.tsx';

interface LettersProps {
  readonly read: PageProps['read'];
  readonly who: Pronouns;
}

/** What the letters say, as a sentence per element; then what it proves, and under which assumptions. */
export function Letters({ read, who }: LettersProps) {
  return (
    <div className="stack5">
      {read.reading.feedback.map((f) => (
        <article key={`${f.no}${f.code}`}>
          <h3>
            Element {f.no}, {f.code}
            {f.letters === null ? ', no letters' : `, letters ${f.letters.split('').join(' ')}`}
          </h3>
          <p className="say">{sentence(f)}</p>
          <dl className="proof">
            {f.turns !== null && (
              <>
                <dt>This allows</dt>
                <dd>
                  <Why about={`Why ${turnsOf(f.turns)}?`} answer={<TurnsAnswer entry={f} read={read} />}>
                    {turnsOf(f.turns)}
                  </Why>{' '}
                  counted, of at most two a type{f.complexity === 'unknown' ? '; complexity stays open' : ''}.
                </dd>
              </>
            )}
            {f.conclusions.length > 0 && (
              <>
                <dt>So</dt>
                <dd>{f.conclusions.join(' ')}</dd>
              </>
            )}
            {f.explanations.length > 1 && (
              <>
                <dt>It leaves open</dt>
                <dd>
                  <Why about={`Which ${f.explanations.length}?`} answer={<Accounts entry={f} />}>
                    {f.explanations.length} explanations
                  </Why>{' '}
                  fit level, letters and cap{isUsed(f) ? ', and what was told' : ''}.
                </dd>
              </>
            )}
            {f.missingPosition !== null && f.letters !== null && (
              <>
                <dt>It leaves open</dt>
                <dd>
                  too short, or not clear. It does not say that {who.she} left it out. The usual cure is one more
                  revolution.
                </dd>
              </>
            )}
            {f.told.length > 0 && (
              <>
                <dt>Evidence</dt>
                <dd>
                  {f.told.map((one) => (
                    <span key={toldInWords(one)} style={{ display: 'block' }}>
                      {toldInWords(one)} {toldUse(one)}
                    </span>
                  ))}
                </dd>
              </>
            )}
            {f.assumptions.length + f.notes.length > 0 && (
              <>
                <dt>It holds if</dt>
                <dd>
                  {f.assumptions.length > 0 && <span style={{ display: 'block' }}>{f.assumptions.join(' ')}</span>}
                  {f.notes.map((n) => (
                    <span key={n} style={{ display: 'block' }}>
                      {n}
                    </span>
                  ))}
                </dd>
              </>
            )}
          </dl>
        </article>
      ))}
    </div>
  );
}

const isUsed = (f: FeedbackEntry): boolean => f.told.some((one) => one.used);

const turnsOf = ({ min, max }: { readonly min: number; readonly max: number }): string =>
  min === max ? `${min} difficult turns` : `${min} to ${max} difficult turns`;

const NAMES = ['rotations', 'body movements', 'clusters'];
const WORD: Readonly<Record<string, string>> = { Y: 'yes', N: 'no', T: 'yes, with a timing fault' };

function sentence(f: FeedbackEntry): string {
  if (!f.consistent)
    return 'Level and letters do not fit each other. Please ask the referee to check what was entered.';
  if (f.missingPosition !== null)
    return f.letters === null
      ? `The panel told you: no ${f.missingPosition} with two continuous revolutions.`
      : `The panel accepted no ${f.missingPosition} with two continuous revolutions.`;
  if (f.letters === null) return 'No letters were printed; that says nothing.';
  const told = Array.from(f.letters)
    .map((letter, i) => `${NAMES[i] ?? ''} ${WORD[letter] ?? letter}`)
    .join(', ');
  return `${capital(told)}.`;
}

/** From what the number of turns follows: the season's counts, the accounts that are left, and what was told. */
function TurnsAnswer({ entry, read: { rules } }: { entry: FeedbackEntry; read: PageProps['read'] }) {
  const { turnCounts } = rules.levels.steps(rules.category);
  const levels = [...new Set(entry.explanations.map((one) => one.turnLevel))].toSorted();
  const cite = (what: string) => rules.levels.citation(`steps.${rules.category}.${what}`);
  return (
    <>
      <p>
        Levels 1 to 3 ask for {turnCounts.join(', ')} difficult turns. The accounts that fit level and letters have the
        turns at {levels.map((level) => (level === 0 ? 'basic' : `level ${level}`)).join(' or ')}
        {isUsed(entry) ? '; what the panel told narrows it further' : ''}.
      </p>
      <Accounts entry={entry} />
      <Rule text="" citations={[cite('turnCounts'), cite('cap')]} />
    </>
  );
}

/** Every account that fits, as words. */
function Accounts({ entry }: { entry: FeedbackEntry }) {
  const yes = (met: boolean) => (met ? 'yes' : 'no');
  return (
    <ul>
      {entry.explanations.map((one) => {
        const turns = one.turnLevel === 0 ? 'turns below level 1' : `turns at level ${one.turnLevel}`;
        const rest = `rotations ${yes(one.rotation)}, body movements ${yes(one.body)}, clusters ${yes(one.clusters)}`;
        return (
          <li key={turns + rest}>
            {turns}, {rest}
          </li>
        );
      })}
    </ul>
  );
}
