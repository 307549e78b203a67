import {
  diffRows,
  diffRulebooks,
  type Difference,
  type Rulebook,
  type RowDifference,
} from '../../../../src/rulebook/index.ts';
import { Asks } from '../../parts/why.tsx';
import { asWords, FAMILIES, matches, pathWords, pointsOrNot } from './rule-words.ts';
import { Sourced } from './sourced.tsx';

interface CompareProps {
  readonly before: Rulebook;
  readonly after: Rulebook;
  readonly search: string;
}

/** What differs between two rulebooks, family by family: what it was and what it became, each with its source. */
export function CompareSeasons({ before, after, search }: CompareProps) {
  const values = diffRulebooks(before, after).filter((d) => !d.path.startsWith('scale.rows.'));
  const found = values.filter((d) => matches(`${d.path} ${pathWords(d.path.split('.'))}`, search.trim()));
  const rows = diffRows(before, after).filter((r) => matches(r.code, search.trim()));
  const families = [...new Set(found.map((d) => familyOf(d.path)))];
  return (
    <>
      <p className="quiet" role="status">
        {found.length + rows.length === 0
          ? 'Nothing differs.'
          : `From ${before.title} to ${after.title}: ${found.length} values and ${rows.length} rows of the scale differ.`}
      </p>
      {families.map((family) => (
        <section key={family} className="family">
          <h3>{family}</h3>
          <Asks>
            <ul className="changes">
              {found
                .filter((d) => familyOf(d.path) === family)
                .map((d) => (
                  <Change key={d.path} difference={d} before={before} after={after} />
                ))}
            </ul>
          </Asks>
        </section>
      ))}
      {rows.length > 0 && (
        <section className="family">
          <h3>Scale of values</h3>
          <Asks>
            <ul className="changes">
              {rows.map((row) => (
                <RowChange key={row.code} row={row} before={before} after={after} />
              ))}
            </ul>
          </Asks>
        </section>
      )}
    </>
  );
}

const familyOf = (path: string): string => {
  const key = path.split('.')[0] ?? '';
  return FAMILIES.find((f) => f.key === key)?.name ?? key;
};

type Sides = Pick<CompareProps, 'before' | 'after'>;

function Change({ difference: d, before, after }: Sides & { difference: Difference }) {
  const name = pathWords(d.path.split('.').slice(1)) || 'the whole list';
  const side = (one: Difference['before'], book: Rulebook) =>
    one === null ? (
      'not stated'
    ) : (
      <Sourced rule={name} value={asWords(one.value)} citation={one.citation} book={book.title} />
    );
  return (
    <li>
      <span>{name}</span>
      <span className="n">{side(d.before, before)}</span>
      <span className="quiet">then</span>
      <span className="n">{side(d.after, after)}</span>
    </li>
  );
}

function RowChange({ row, before, after }: Sides & { row: RowDifference }) {
  const side = (one: RowDifference['before'], book: Rulebook) =>
    one === null ? (
      'not listed'
    ) : (
      <Sourced
        rule={`${row.code}, base value`}
        value={pointsOrNot(one.base)}
        citation={one.citation}
        book={book.title}
      />
    );
  const graded = row.before !== null && row.after !== null && row.before.base === row.after.base;
  return (
    <li>
      <span className="code">
        {row.code}
        {graded && <span className="small quiet"> points of a grade</span>}
      </span>
      <span className="n">{side(row.before, before)}</span>
      <span className="quiet">then</span>
      <span className="n">{side(row.after, after)}</span>
    </li>
  );
}
