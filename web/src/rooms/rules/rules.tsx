import { useMemo, useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import { diffRulebooks, type Citation, type Rulebook } from '../../../../src/rulebook/index.ts';
import { rules } from '../../data/rules.ts';
import { Row } from '../../parts/frame.tsx';

const SHOWN = 120;

interface Leaf {
  readonly path: string;
  readonly value: string;
  readonly citation: Citation;
}

/** Rulebooks to browse, search and compare; every value with its source. */
export function Rules() {
  const ids = rules().list();
  const newest = ids.filter((id) => id.startsWith('isu/')).at(-2) ?? ids[0] ?? '';
  const [id, setId] = useState(newest);
  const [other, setOther] = useState('');
  const [search, setSearch] = useState('');
  const book = rules().rulebook(id);
  return (
    <>
      <Row
        about="Rules"
        notes={
          <>
            <p>
              Without a mark: published and read. m: from memory, common practice or inferred. p: provisional. y: your
              own entry.
            </p>
            <p>The federation’s current publications decide; later rules may differ.</p>
          </>
        }
      >
        <h1>Rulebooks</h1>
        <div className="two" style={{ marginTop: '1rem', maxWidth: '40rem' }}>
          <Choice label="Rulebook" ids={ids} value={id} choose={setId} />
          <Choice label="Compared with" ids={['', ...ids]} value={other} choose={setOther} />
        </div>
        <SearchField value={search} onChange={setSearch} style={{ maxWidth: '26rem', marginTop: '1rem' }}>
          <Label className="lab">Find a rule or a code</Label>
          <Input className="field" placeholder="3Lz, deductions, second half" />
        </SearchField>
      </Row>
      {book !== undefined && (
        <Row
          about={other === '' ? book.title : 'What differs'}
          aside={book.provisional ? 'provisional' : undefined}
          wide
        >
          {other === '' ? (
            <Browse book={book} search={search} />
          ) : (
            <Compare a={book} b={rules().rulebook(other)} search={search} />
          )}
        </Row>
      )}
    </>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly ids: readonly string[];
  readonly value: string;
  readonly choose: (id: string) => void;
}

function Choice({ label, ids, value, choose }: ChoiceProps) {
  return (
    <label>
      <span className="lab">{label}</span>
      <select className="field" value={value} onChange={(e) => choose(e.target.value)}>
        {ids.map((id) => (
          <option key={id} value={id}>
            {id === '' ? 'nothing' : id}
          </option>
        ))}
      </select>
    </label>
  );
}

function Browse({ book, search }: { book: Rulebook; search: string }) {
  const leaves = useMemo(() => leavesOf(book), [book]);
  const found = leaves.filter((leaf) => matches(`${leaf.path} ${leaf.value}`, search));
  return (
    <>
      <p className="quiet">
        {found.length} values
        {found.length > SHOWN ? `, the first ${SHOWN} shown; a word in the search makes it shorter` : ''}.
      </p>
      <div tabIndex={0} role="region" aria-label="Values and their sources" className="scrolls">
        <table className="plainT">
          <thead>
            <tr>
              <th scope="col">Rule</th>
              <th scope="col">Value</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {found.slice(0, SHOWN).map((leaf) => (
              <tr key={leaf.path}>
                <td>{leaf.path.replaceAll('.', ' · ')}</td>
                <td className="n">
                  {leaf.value}
                  <Mark citation={leaf.citation} />
                </td>
                <td className="quiet">{leaf.citation.source}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

/** The small letter of trust after a figure. */
export function Mark({ citation }: { citation: Citation }) {
  const letter = citation.provisional
    ? 'p'
    : citation.status === 'memory'
      ? 'm'
      : citation.status === 'local'
        ? 'y'
        : '';
  return letter === '' ? null : (
    <span className="mk" title={citation.source}>
      {letter}
    </span>
  );
}

function Compare({ a, b, search }: { a: Rulebook; b: Rulebook | undefined; search: string }) {
  if (b === undefined) return null;
  const all = diffRulebooks(a, b).filter((d) => matches(d.path, search));
  return (
    <>
      <p className="quiet">
        {all.length === 0 ? 'Nothing differs.' : `${all.length} values differ between ${a.id} and ${b.id}.`}
      </p>
      <div tabIndex={0} role="region" aria-label="Values that differ" className="scrolls">
        <table className="plainT">
          <thead>
            <tr>
              <th scope="col">Rule</th>
              <th scope="col">{a.id}</th>
              <th scope="col">{b.id}</th>
              <th scope="col">Source of the second</th>
            </tr>
          </thead>
          <tbody>
            {all.slice(0, SHOWN * 2).map((d) => (
              <tr key={d.path}>
                <td>{d.path.replaceAll('.', ' · ')}</td>
                <td className="n">{d.before === null ? 'not stated' : textOf(d.before.value)}</td>
                <td className="n">{d.after === null ? 'not stated' : textOf(d.after.value)}</td>
                <td className="quiet">{d.after?.citation.source ?? ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

const HEAD = new Set(['id', 'extends', 'sources', 'overlay', 'abstract']);

function leavesOf(book: Rulebook): Leaf[] {
  const leaves: Leaf[] = [];
  const walk = (value: unknown, path: readonly string[]) => {
    if (value !== null && typeof value === 'object' && !Array.isArray(value)) {
      for (const [key, inner] of Object.entries(value)) {
        if (key !== 'cite' && !(path.length === 0 && HEAD.has(key))) walk(inner, [...path, key]);
      }
      return;
    }
    const name = path.join('.');
    leaves.push({ path: name, value: textOf(value), citation: book.citation(name) });
  };
  walk(book.document, []);
  return leaves;
}

const textOf = (value: unknown): string =>
  value === null ? 'not known' : typeof value === 'string' ? value : JSON.stringify(value);

const matches = (text: string, search: string): boolean =>
  search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.toLowerCase().includes(word));
