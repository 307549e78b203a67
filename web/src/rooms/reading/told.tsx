import { useState } from 'react';
import { Button } from 'react-aria-components';
import { api, newId, type Note, type ProtocolRecord } from '../../data/api.ts';
import { useAutosave } from '../../data/autosave.ts';
import { usePut } from '../../data/use.ts';
import { didEdit } from '../../parts/undo.tsx';
import { useQueryClient } from '@tanstack/react-query';
import { staveElements } from './ledger-view.ts';
import type { PageProps } from './reading-page.tsx';

interface ToldProps {
  readonly record: ProtocolRecord;
  readonly notes: readonly Note[];
  readonly read: PageProps['read'];
}

/** What the panel told about elements: turns that counted, a missing position, words. Kept while you type. */
export function ToldByThePanel({ record, notes, read }: ToldProps) {
  const put = usePut('notes');
  const own = notes.filter((n) => n.box === 'told-by-panel');
  const elements = staveElements(read.protocol);
  const first = read.reading.feedback.find((f) => !own.some((n) => n.element === f.no)) ?? read.reading.feedback[0];
  const add = () =>
    put.mutate({
      id: newId(),
      about: 'protocols',
      aboutId: record.id,
      element: first?.no ?? elements[0]?.no ?? null,
      box: 'told-by-panel',
      text: '',
      videoAt: null,
    });
  return (
    <div className="stack5">
      {own.map((note) => (
        <One key={note.id} note={note} read={read} />
      ))}
      <p>
        <Button className="btn" onPress={add}>
          {own.length === 0 ? 'Add what you were told' : 'Add another'}
        </Button>
      </p>
    </div>
  );
}

const MOST_TURNS = 12;
const POSITIONS = ['camel', 'sit', 'upright'] as const;

function One({ note, read }: { note: Note; read: PageProps['read'] }) {
  const put = usePut('notes');
  const client = useQueryClient();
  const [now, setNow] = useState(note);
  const [edits, setEdits] = useState(0);
  useAutosave(edits, () => put.mutateAsync(now), 400);
  const change = (part: Partial<Note>) => {
    setNow({ ...now, ...part });
    setEdits((n) => n + 1);
  };
  const remove = async () => {
    await api.remove('notes', note.id);
    await client.invalidateQueries({ queryKey: ['notes'] });
    didEdit('What was told is taken away.');
  };
  const elements = staveElements(read.protocol);
  const kind = elements.find((e) => e.no === now.element)?.kind;
  return (
    <div className="told">
      <label>
        <span className="lab">Element</span>
        <select
          className="field"
          value={now.element ?? ''}
          onChange={(e) =>
            change({
              element: e.target.value === '' ? null : Number(e.target.value),
              turns: null,
              missingPosition: null,
            })
          }
        >
          <option value="">the whole program</option>
          {elements.map((e) => (
            <option key={e.no} value={e.no}>
              {e.no} {e.code}
            </option>
          ))}
        </select>
      </label>
      {kind === 'steps' && (
        <label>
          <span className="lab">Turns that counted</span>
          <select
            className="field"
            value={now.turns ?? ''}
            onChange={(e) => change({ turns: e.target.value === '' ? null : Number(e.target.value) })}
          >
            <option value="">not told</option>
            {Array.from({ length: MOST_TURNS + 1 }, (_, n) => (
              <option key={n} value={n}>
                {n}
              </option>
            ))}
          </select>
        </label>
      )}
      {kind === 'spin' && (
        <label>
          <span className="lab">Position that was missing</span>
          <select
            className="field"
            value={now.missingPosition ?? ''}
            onChange={(e) => change({ missingPosition: POSITIONS.find((p) => p === e.target.value) ?? null })}
          >
            <option value="">not told</option>
            {POSITIONS.map((p) => (
              <option key={p}>{p}</option>
            ))}
          </select>
        </label>
      )}
      <label className="words">
        <span className="lab">In their words</span>
        <textarea
          className="field"
          rows={2}
          maxLength={4000}
          value={now.text}
          onChange={(e) => change({ text: e.target.value })}
        />
      </label>
      <Button className="btn" onPress={() => void remove()}>
        Take it away
      </Button>
    </div>
  );
}
