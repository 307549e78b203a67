import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Button, FileTrigger } from 'react-aria-components';
import { api } from '../../data/api.ts';
import { setTheme, theme, THEMES } from '../../data/theme.ts';
import { Row } from '../../parts/frame.tsx';

/** Everything out, everything in, the demo season, a fresh start. */
export function Settings() {
  const client = useQueryClient();
  const [said, setSaid] = useState('');
  const [sure, setSure] = useState(false);
  const [shade, setShade] = useState(theme);
  const done = async (what: Promise<unknown>, sentence: string) => {
    try {
      await what;
      await client.invalidateQueries();
      setSaid(sentence);
    } catch (error) {
      setSaid(error instanceof Error ? error.message : 'It did not work. Nothing was changed.');
    }
  };
  const bringBack = async (file: File | undefined) => {
    if (file === undefined) return;
    const text = await file.text();
    await done(api.ask('/api/import', api.send('POST', { text })), 'Everything is back as the file has it.');
  };
  return (
    <>
      <Row about="Settings" notes={<p>All data stay on this machine. Nothing is sent anywhere.</p>}>
        <h1>Settings and backup</h1>
        {said !== '' && (
          <p className="problem" role="status">
            {said}
          </p>
        )}
      </Row>
      <Row about="Appearance" notes={<p className="quiet">Kept on this device alone.</p>}>
        <fieldset className="tie">
          <legend className="lab">Light or dark</legend>
          {THEMES.map((name) => (
            <label key={name} className="pick">
              <input
                type="radio"
                name="theme"
                checked={shade === name}
                onChange={() => {
                  setTheme(name);
                  setShade(name);
                }}
              />{' '}
              {name === 'device' ? 'as the device has it' : name}
            </label>
          ))}
        </fieldset>
      </Row>
      <Row about="Backup">
        <p>
          <a className="btn" href="/api/export" download>
            Export everything as one file
          </a>
        </p>
        <div className="tie" style={{ marginTop: '1rem' }}>
          <FileTrigger acceptedFileTypes={['.jsonl']} onSelect={(files) => void bringBack(files?.[0])}>
            <Button className="btn">Bring back an export</Button>
          </FileTrigger>
          <span className="quiet">
            It replaces what is here. A torn or altered file is refused and nothing changes.
          </span>
        </div>
      </Row>
      <Row about="Demo season">
        <p>An invented club with five skaters and eight events, to look at before entering one’s own.</p>
        <div className="tie" style={{ marginTop: '1rem' }}>
          <Button
            className="btn"
            onPress={() => void done(api.ask('/api/demo', api.send('POST', {})), 'The demo season is here.')}
          >
            Load the demo season
          </Button>
          {sure ? (
            <>
              <Button
                className="btn main"
                onPress={() =>
                  void done(api.clear(), 'Everything is removed. Add your first sheet.').then(() => setSure(false))
                }
              >
                Yes, remove everything
              </Button>
              <Button className="btn" onPress={() => setSure(false)}>
                Keep it
              </Button>
            </>
          ) : (
            <Button className="btn" onPress={() => setSure(true)}>
              Clear and start my own
            </Button>
          )}
        </div>
      </Row>
    </>
  );
}
