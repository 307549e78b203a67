import { memo, useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { describeProblem, parseCode } from '../../../../src/notation/index.ts';
import type { StripNote } from '../../figures/strip-note.ts';
import { clock } from '../../words/numbers.ts';

interface ElementsProps {
  readonly notes: readonly StripNote[];
  readonly onCode: (id: string, code: string) => void;
  readonly onRemove: (id: string) => void;
  readonly onAdd: (code: string) => void;
}

/** The same as a line of codes in skating order: each can be changed or taken out by keyboard. */
export const Elements = memo(function Elements({ notes, onCode, onRemove, onAdd }: ElementsProps) {
  const [code, setCode] = useState('');
  const fits = parseCode(code.trim());
  return (
    <details className="drawer noprint">
      <summary>Change elements</summary>
      <ol className="stack" style={{ maxWidth: '30rem' }}>
        {notes.map((n) => (
          <li key={n.id} className="tie">
            <span className="n quiet" style={{ width: '3rem' }}>
              {clock(n.start)}
            </span>
            <input
              className="field"
              style={{ width: '12rem' }}
              aria-label={`Element at ${clock(n.start)}`}
              defaultValue={n.code}
              onBlur={(e) => e.target.value.trim() !== n.code && onCode(n.id, e.target.value.trim())}
            />
            <Button className="btn" onPress={() => onRemove(n.id)} aria-label={`Take out ${n.code}`}>
              Take out
            </Button>
          </li>
        ))}
      </ol>
      <form
        className="tie"
        style={{ marginTop: '1rem' }}
        onSubmit={(event) => {
          event.preventDefault();
          if (!fits.ok) return;
          onAdd(code.trim());
          setCode('');
        }}
      >
        <TextField value={code} onChange={setCode} maxLength={40}>
          <Label className="lab">Add an element</Label>
          <Input className="field" placeholder="2A+2T" spellCheck="false" />
        </TextField>
        <Button type="submit" className="btn main" isDisabled={!fits.ok} style={{ alignSelf: 'end' }}>
          Add
        </Button>
        {!fits.ok && code.trim() !== '' && <p className="problem small">{describeProblem(fits.error)}</p>}
      </form>
    </details>
  );
});
