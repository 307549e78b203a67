import type { FeedbackEntry } from '../../../../src/reading/index.ts';

/** What the letters say, as a sentence per element; then what it proves, and under which assumptions. */
export function Letters({ feedback }: { feedback: readonly FeedbackEntry[] }) {
  return (
    <div className="stack5">
      {feedback.map((f) => (
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
                  {f.turns.min === f.turns.max
                    ? `${f.turns.min} difficult turns`
                    : `${f.turns.min} to ${f.turns.max} difficult turns`}{' '}
                  counted, of at most two a type{f.complexity === 'unknown' ? '; complexity stays open' : ''}.
                </dd>
              </>
            )}
            {f.explanations.length > 1 && (
              <>
                <dt>It leaves open</dt>
                <dd>{f.explanations.length} explanations fit level, letters and cap.</dd>
              </>
            )}
            {f.missingPosition !== null && (
              <>
                <dt>It leaves open</dt>
                <dd>
                  too short, or not clear. It does not say that she left it out. The usual cure is one more revolution.
                </dd>
              </>
            )}
            {f.notes.length > 0 && (
              <>
                <dt>It holds if</dt>
                <dd>
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

const NAMES = ['rotations', 'body movements', 'clusters'];
const WORD: Readonly<Record<string, string>> = { Y: 'yes', N: 'no', T: 'yes, with a timing fault' };

function sentence(f: FeedbackEntry): string {
  if (!f.consistent)
    return 'Level and letters do not fit each other. Please ask the referee to check what was entered.';
  if (f.missingPosition !== null) return `The panel accepted no ${f.missingPosition} with two continuous revolutions.`;
  if (f.letters === null) return 'No letters were printed; that says nothing.';
  const told = Array.from(f.letters)
    .map((letter, i) => `${NAMES[i] ?? ''} ${WORD[letter] ?? letter}`)
    .join(', ');
  return `${told.charAt(0).toUpperCase()}${told.slice(1)}.`;
}
