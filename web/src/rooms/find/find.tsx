import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import { useList } from '../../data/use.ts';
import { Row } from '../../parts/frame.tsx';
import { longDay } from '../../words/numbers.ts';

/** One field that finds skaters, events, sheets, and the pages that have no place of their own. */
export function Find() {
  const [text, setText] = useState('');
  const wanted = text.trim();
  const skaters = useList('skaters', { limit: '40', ...(wanted === '' ? {} : { find: wanted }) }).data ?? [];
  const events = useList('competitions').data ?? [];
  const has = (name: string) => name.toLowerCase().includes(text.trim().toLowerCase());
  return (
    <Row about="Find">
      <h1>Find</h1>
      <SearchField value={text} onChange={setText} autoFocus style={{ maxWidth: '30rem', marginTop: '1rem' }}>
        <Label className="lab">A skater, an event, a page</Label>
        <Input className="field" />
      </SearchField>
      <ul className="pages" style={{ marginTop: '1.5rem' }}>
        {skaters
          .filter((s) => has(s.name))
          .map((s) => (
            <li key={s.id}>
              <Link to="/skaters/$id" params={{ id: s.id }}>
                {s.name}
              </Link>{' '}
              <span className="quiet">
                {s.category}
                {s.archived ? ' · not on the start page' : ''}
              </span>
            </li>
          ))}
        {events
          .filter((e) => has(e.name))
          .map((e) => (
            <li key={e.id}>
              <Link to="/events/$id" params={{ id: e.id }}>
                {e.name}
              </Link>{' '}
              <span className="quiet">event, {longDay(e.date)}</span>
            </li>
          ))}
        {has('settings and backup') && (
          <li>
            <Link to="/settings">Settings and backup</Link>
          </li>
        )}
        {has('add a skater') && (
          <li>
            <Link to="/skaters/new">Add a skater</Link>
          </li>
        )}
        {has('rules') && (
          <li>
            <Link to="/rules">Rules</Link>
          </li>
        )}
      </ul>
    </Row>
  );
}
