import { useState } from 'react';
import { Button, Input, Label, SearchField } from 'react-aria-components';
import { ownRules } from '../../data/own-rules.ts';
import { rules } from '../../data/rules.ts';
import { Row } from '../../parts/frame.tsx';
import { Marks } from '../../parts/mark.tsx';
import { Browse } from './browse.tsx';
import { CompareSeasons } from './compare-seasons.tsx';

/** Rulebooks to browse, search and compare; every value with its source. */
export function Rules() {
  const ids = rules().list();
  const [id, setId] = useState(() => newestSettled(ids));
  const [other, setOther] = useState('');
  const [search, setSearch] = useState('');
  const book = rules().rulebook(id);
  const before = other === '' ? undefined : rules().rulebook(other);
  const earlier = seasonBefore(id, ids);
  return (
    <>
      <Row
        about="Rules"
        notes={
          <>
            <Marks />
            <p className="small">The federation’s current publications decide; later rules may differ.</p>
          </>
        }
      >
        <h1>Rulebooks</h1>
        <div className="pair" style={{ marginTop: '1rem' }}>
          <Choice label="Rulebook" none={null} ids={ids} value={id} choose={setId} />
          <Choice label="Compared with" none="nothing" ids={ids} value={other} choose={setOther} />
          {earlier !== null && earlier !== other && (
            <Button className="btn" onPress={() => setOther(earlier)}>
              What changed since the season before
            </Button>
          )}
          {other !== '' && (
            <Button className="btn" onPress={() => setOther('')}>
              Read it whole
            </Button>
          )}
        </div>
        <SearchField value={search} onChange={setSearch} style={{ maxWidth: '26rem', marginTop: '1rem' }}>
          <Label className="lab">Find a rule or a code</Label>
          <Input className="field" placeholder="3Lz, falls, second half" />
        </SearchField>
      </Row>
      {book !== undefined && (
        <Row
          about={before === undefined ? book.title : 'What differs'}
          aside={book.provisional ? 'provisional: the season’s text was not seen' : book.id}
          wide
        >
          {before === undefined ? (
            <Browse key={id} book={book} search={search} />
          ) : (
            <CompareSeasons key={id + other} before={before} after={book} search={search} />
          )}
        </Row>
      )}
      <Row about="Your own entries">
        <OwnEntries />
      </Row>
    </>
  );
}

/** The files of the coach's own, or how to have some. */
function OwnEntries() {
  const own = ownRules();
  if (own.length === 0) {
    return (
      <p>
        A rule of your federation or your event goes into a file of its own, in a folder: start Edgeledger with
        EDGELEDGER_RULEBOOKS naming that folder. Its values are marked y, and everything here computes with them.
      </p>
    );
  }
  return (
    <ul className="stack">
      {own.map(({ path, document }) => {
        const { title, overlay, id } = document as { title?: unknown; overlay?: unknown; id?: unknown };
        const target = [overlay ?? id].flat().join(', ');
        return (
          <li key={path}>
            <b>{typeof title === 'string' ? title : path}</b>
            {typeof title === 'string' ? `, ${path}` : ''}:{' '}
            {overlay === undefined ? 'a rulebook of its own,' : 'changes'} {target}.
          </li>
        );
      })}
    </ul>
  );
}

/** The newest rulebook of the ISU whose text was seen. */
const newestSettled = (ids: readonly string[]): string =>
  ids.filter((id) => id.startsWith('isu/') && rules().rulebook(id)?.provisional !== true).at(-1) ?? ids[0] ?? '';

/** The rulebook of the same body before this one; null for the first. */
function seasonBefore(id: string, ids: readonly string[]): string | null {
  const [body = ''] = id.split('/');
  const own = ids.filter((one) => one.startsWith(`${body}/`));
  return own[own.indexOf(id) - 1] ?? null;
}

interface ChoiceProps {
  readonly label: string;
  /** Words for choosing none; null: one must be chosen. */
  readonly none: string | null;
  readonly ids: readonly string[];
  readonly value: string;
  readonly choose: (id: string) => void;
}

function Choice({ label, none, ids, value, choose }: ChoiceProps) {
  return (
    <label>
      <span className="lab">{label}</span>
      <select className="field" value={value} onChange={(e) => choose(e.target.value)}>
        {none !== null && <option value="">{none}</option>}
        {ids.map((id) => (
          <option key={id} value={id}>
            {rules().rulebook(id)?.title ?? id}
          </option>
        ))}
      </select>
    </label>
  );
}
