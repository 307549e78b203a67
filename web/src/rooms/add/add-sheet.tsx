import { useNavigate } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import { Button, DropZone, FileTrigger, Label, TextArea, TextField, isFileDropItem } from 'react-aria-components';
import { Row } from '../../parts/frame.tsx';
import { Preview } from './preview.tsx';
import { useReader, type Stage } from './use-reader.ts';

/** Drop, choose or paste; it is read here at once; doubts are shown and asked; then it is kept. */
export function AddSheet() {
  const navigate = useNavigate();
  const { stage, read, stop, again } = useReader();
  const [text, setText] = useState('');
  if (stage.at === 'read') {
    return (
      <Preview
        read={stage.read}
        again={again}
        done={(id) => void navigate(id === null ? { to: '/' } : { to: '/reading/$id', params: { id } })}
      />
    );
  }
  return (
    <>
      <Row
        about="Add a sheet"
        notes={
          <>
            <p>
              It is read here, on this device; nothing is kept before you say so. Then the original is kept with it, so
              that it can be read again, unless it names skaters who are not yours.
            </p>
            <p className="quiet">
              Protocols with names are public; still, your own skaters alone are kept in full. The rest of the field is
              kept without names, for comparing.
            </p>
          </>
        }
      >
        <h1>Add a sheet</h1>
        <p className="lead">
          A PDF, a saved web page, a table, a photograph, or text you copied. One skater or a whole event.
        </p>
        <DropZone
          className="box drop"
          onDrop={(event) => {
            const item = event.items.find(isFileDropItem);
            if (item !== undefined) void item.getFile().then((file) => read(file, file.name));
          }}
        >
          <p>Drop a file here, or</p>
          <FileTrigger onSelect={(files) => files?.[0] !== undefined && void read(files[0], files[0].name)}>
            <Button className="btn main">Choose a file</Button>
          </FileTrigger>
        </DropZone>
        <HowFar stage={stage} stop={stop} />
      </Row>
      <Row about="Or paste">
        <TextField value={text} onChange={setText}>
          <Label className="lab">The text of the sheet</Label>
          <TextArea className="field" rows={10} spellCheck="false" style={{ fontVariantNumeric: 'tabular-nums' }} />
        </TextField>
        <p style={{ marginTop: '1rem' }}>
          <Button
            className="btn main"
            isDisabled={text.trim() === ''}
            onPress={() => void read(new Blob([text]), 'pasted.txt')}
          >
            Read it
          </Button>
        </p>
      </Row>
    </>
  );
}

/** What is done is said when it lasts longer than this, in milliseconds. */
const SOON = 300;

/** How far reading is, with Stop; or why it came to nothing. */
function HowFar({ stage, stop }: { stage: Stage; stop: () => void }) {
  const working = stage.at === 'working';
  const [long, setLong] = useState(false);
  useEffect(() => {
    if (!working) return;
    const timer = setTimeout(() => setLong(true), SOON);
    return () => {
      clearTimeout(timer);
      setLong(false);
    };
  }, [working]);
  if (stage.at === 'working') {
    if (!long) return null;
    return (
      <div className="tie" role="status" style={{ marginTop: '1rem' }}>
        {/* First, so that it stays in its place while the words beside it grow. */}
        <Button className="btn" onPress={stop}>
          Stop
        </Button>
        {stage.share !== null && <progress value={stage.share} aria-label="How far" />}
        <span>{stage.saying}</span>
      </div>
    );
  }
  return stage.at === 'start' && stage.problem !== '' ? (
    <p className="problem" role="alert" style={{ marginTop: '1rem' }}>
      {stage.problem}
    </p>
  ) : null;
}
