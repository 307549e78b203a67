import { execFileSync, spawn, type ChildProcess } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';

/**
 * A real PostgreSQL server of our own in a temporary folder, for tests; nothing of the machine's own
 * server is touched. PostgreSQL refuses to run as root, so root starts it as the package's own user.
 */
export async function startPostgres(): Promise<{ address: string; stop: () => Promise<void> }> {
  const bin = binaries();
  const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-postgres-'));
  const asRoot = process.getuid?.() === 0;
  if (asRoot) {
    const uid = Number(execFileSync('id', ['-u', 'postgres'], { encoding: 'utf8' }));
    chownSync(folder, uid, -1);
  }
  const as = (program: string, args: string[]): [string, string[]] =>
    asRoot ? ['runuser', ['-u', 'postgres', '--', program, ...args]] : [program, args];
  const data = path.join(folder, 'data');
  const [init, initArgs] = as(path.join(bin, 'initdb'), ['-D', data, '-U', 'edge', '-A', 'trust', '-E', 'UTF8']);
  execFileSync(init, initArgs, { stdio: 'pipe', cwd: folder });

  const port = await freePort();
  const serve = ['-D', data, '-p', String(port), '-h', '127.0.0.1', '-k', folder, '-c', 'fsync=off'];
  const [command, args] = as(path.join(bin, 'postgres'), serve);
  const server = spawn(command, args, { stdio: 'pipe', cwd: folder });
  await accepts(path.join(bin, 'pg_isready'), port);
  return {
    address: `postgres://edge@127.0.0.1:${port}/postgres`,
    stop: async () => {
      await ended(server, path.join(bin, 'pg_ctl'), data, as);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function binaries(): string {
  const root = '/usr/lib/postgresql';
  const versions = existsSync(root) ? readdirSync(root).sort((a, b) => Number(b) - Number(a)) : [];
  const newest = versions[0];
  if (newest === undefined) throw new Error('No PostgreSQL server here. Install the package "postgresql".');
  return path.join(root, newest, 'bin');
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      const port = typeof address === 'object' && address !== null ? address.port : 0;
      probe.close(() => resolve(port));
    });
  });
}

async function accepts(isReady: string, port: number): Promise<void> {
  for (let tries = 0; tries < 200; tries += 1) {
    try {
      execFileSync(isReady, ['-h', '127.0.0.1', '-p', String(port)], { stdio: 'pipe' });
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
  throw new Error('PostgreSQL did not start within 20 seconds.');
}

async function ended(
  server: ChildProcess,
  control: string,
  data: string,
  as: (program: string, args: string[]) => [string, string[]],
): Promise<void> {
  const gone = new Promise((resolve) => server.once('exit', resolve));
  const [command, args] = as(control, ['stop', '-D', data, '-m', 'immediate']);
  execFileSync(command, args, { stdio: 'pipe' });
  await gone;
}
