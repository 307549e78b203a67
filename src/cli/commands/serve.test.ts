import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { connect } from 'node:net';
import { expect, it } from 'vitest';

const root = new URL('../../..', import.meta.url).pathname;

it('serve ends soon after Ctrl+C though an upload stands still', async () => {
  const server = spawn('node', ['--import', 'tsx', 'src/cli/main.ts', 'serve', '--port', '0'], {
    cwd: root,
    env: { ...process.env, EDGELEDGER_STORE: ':memory:', DATABASE_URL: '' },
  });
  const port = await new Promise<number>((resolve) => {
    let said = '';
    server.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const found = /127\.0\.0\.1:(\d+)/.exec(said)?.[1];
      if (found !== undefined) resolve(Number(found));
    });
  });
  const upload = connect(port, '127.0.0.1');
  upload.on('error', () => undefined);
  await once(upload, 'connect');
  upload.write(
    'POST /api/sheets HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/octet-stream\r\nContent-Length: 5000\r\n\r\nhalf',
  );
  await new Promise((resolve) => setTimeout(resolve, 300));
  const asked = Date.now();
  server.kill('SIGINT');
  await once(server, 'exit');
  expect(Date.now() - asked).toBeLessThan(15_000);
}, 60_000);
