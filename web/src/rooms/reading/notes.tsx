import { useState } from 'react';
import { Label, TextArea, TextField } from 'react-aria-components';
import type { Pronouns } from '../../../../src/notation/index.ts';
import { newId, type Note } from '../../data/api.ts';
import { useAutosave } from '../../data/autosave.ts';
import { useList, usePut } from '../../data/use.ts';

const boxesFor = (
  who: Pronouns,
): readonly { readonly box: Note['box']; readonly label: string; readonly hint: string }[] => [
  { box: 'private', label: 'Private to you', hint: 'Never printed, never released' },
  { box: 'report', label: 'In the report', hint: `Printed on ${who.hersOf} page after the release` },
];

/** Two clearly separate boxes. Kept while you type. */
export function Notes({ about, id, who }: { about: string; id: string; who: Pronouns }) {
  const notes = useList('notes', { aboutId: id });
  if (notes.data === undefined) return null;
  const own = notes.data.filter((n) => n.about === about && n.aboutId === id);
  return (
    <div className="two">
      {boxesFor(who).map(({ box, label, hint }) => (
        <Box key={box} label={label} hint={hint} note={own.find((n) => n.box === box) ?? empty(about, id, box)} />
      ))}
    </div>
  );
}

const empty = (about: string, aboutId: string, box: Note['box']): Note => ({
  id: newId(),
  about,
  aboutId,
  element: null,
  box,
  text: '',
  videoAt: null,
});

function Box({ label, hint, note }: { label: string; hint: string; note: Note }) {
  const put = usePut('notes');
  const [first] = useState(note);
  const [text, setText] = useState(note.text);
  const [edits, setEdits] = useState(0);
  useAutosave(edits, () => put.mutateAsync({ ...first, text }), 700);
  return (
    <TextField
      value={text}
      onChange={(typed) => {
        setText(typed);
        setEdits((n) => n + 1);
      }}
      maxLength={4000}
    >
      <Label className="lab">{label}</Label>
      <TextArea className="field" rows={4} placeholder={hint} />
    </TextField>
  );
}
