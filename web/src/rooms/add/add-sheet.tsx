import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { Button, DropZone, FileTrigger, Label, TextArea, TextField, isFileDropItem } from 'react-aria-components';
import { api } from '../../data/api.ts';
import { followJob, type JobView } from '../../data/jobs.ts';
import { Row } from '../../parts/frame.tsx';
import { Preview } from './preview.tsx';
import type { SheetRead } from './types.ts';

const MOST = 32 * 1024 * 1024;

/** Drop, choose or paste; it is read; doubts are shown and asked; then it is kept. */
export function AddSheet() {
  const navigate = useNavigate();
  const [text, setText] = useState('');
  const [job, setJob] = useState<JobView | null>(null);
  const [problem, setProblem] = useState('');
  const read = job?.state === 'done' ? (job.result as SheetRead) : null;

  const send = async (bytes: Blob, name: string) => {
    setProblem('');
    if (bytes.size > MOST) {
      setProblem(`${name} is larger than 32 MB. Send the pages of your skaters alone.`);
      return;
    }
    try {
      const started = await api.ask<JobView>('/api/sheets', {
        method: 'POST',
        headers: { 'content-type': 'application/octet-stream', 'x-sheet-name': encodeURIComponent(name) },
        body: bytes,
      });
      setJob(started);
      followJob(started.id, setJob);
    } catch (error) {
      setProblem(error instanceof Error ? error.message : 'It could not be sent. Nothing was kept.');
    }
  };
  if (read !== null) {
    return (
      <Preview
        read={read}
        again={() => setJob(null)}
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
              Protocols with names are public; still, only your own skaters are kept in full. The rest of the field is
              kept without names, for comparing.
            </p>
            <p className="quiet">The original stays on this machine, so that it can be read again.</p>
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
            if (item !== undefined) void item.getFile().then((file) => send(file, file.name));
          }}
        >
          <p>Drop a file here, or</p>
          <FileTrigger onSelect={(files) => files?.[0] !== undefined && void send(files[0], files[0].name)}>
            <Button className="btn main">Choose a file</Button>
          </FileTrigger>
        </DropZone>
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
            onPress={() => void send(new Blob([text]), 'pasted.txt')}
          >
            Read it
          </Button>
        </p>
      </Row>
      {(job !== null || problem !== '') && (
        <Row about="Reading it">
          {problem !== '' && (
            <p className="problem" role="alert">
              {problem}
            </p>
          )}
          {job?.state === 'working' && (
            <p role="status">
              {job.saying}{' '}
              <Button className="btn" onPress={() => void api.ask(`/api/jobs/${job.id}`, { method: 'DELETE' })}>
                Stop
              </Button>
            </p>
          )}
          {(job?.state === 'failed' || job?.state === 'stopped') && (
            <p className="problem" role="alert">
              {job.error ?? job.saying} Nothing was kept.
            </p>
          )}
        </Row>
      )}
    </>
  );
}
