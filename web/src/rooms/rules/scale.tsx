import type { Rulebook } from '../../../../src/rulebook/index.ts';
import { pointsOrNot } from './rule-words.ts';
import { Sourced } from './sourced.tsx';

/** Rows shown at once; a word in the search makes it shorter. */
const SHOWN = 60;

/** The scale of values: what an element is worth as called, and what a grade brings. */
export function Scale({ book, codes }: { book: Rulebook; codes: readonly string[] }) {
  const { max } = book.values.goe;
  return (
    <>
      <div tabIndex={0} role="region" aria-label="Scale of values" className="scrolls">
        <table className="plainT worth">
          <thead>
            <tr>
              <th scope="col">Code as called</th>
              <th scope="col">Base value</th>
              <th scope="col">One grade up</th>
              <th scope="col">One grade down</th>
            </tr>
          </thead>
          <tbody>
            {codes.slice(0, SHOWN).map((code) => {
              const row = book.row(code);
              if (row === undefined) return null;
              const graded = (from: number) => row.grades?.at(from) ?? null;
              const cite = row.gradesCitation ?? row.citation;
              return (
                <tr key={code}>
                  <th scope="row" className="code">
                    {code}
                  </th>
                  <td className="n">
                    <Sourced
                      rule={`Base value of ${code}`}
                      value={pointsOrNot(row.base)}
                      citation={row.citation}
                      book={book.title}
                    />
                  </td>
                  <td className="n">
                    <Sourced
                      rule={`One grade up on ${code}`}
                      value={pointsOrNot(graded(-max))}
                      citation={cite}
                      book={book.title}
                    />
                  </td>
                  <td className="n">
                    <Sourced
                      rule={`One grade down on ${code}`}
                      value={pointsOrNot(graded(-max - 2))}
                      citation={cite}
                      book={book.title}
                    />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
      {codes.length > SHOWN && (
        <p className="quiet small">
          The first {SHOWN} of {codes.length}; a code in the search makes it shorter.
        </p>
      )}
    </>
  );
}
