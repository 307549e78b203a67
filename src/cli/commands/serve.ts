import { existsSync } from 'node:fs';
import type { Server } from 'node:http';
import { fileURLToPath } from 'node:url';
import type { Command } from 'commander';
import { UsageError, type Io } from '../io.ts';
import { rulesInUse } from '../overlays.ts';
import { storeAddress } from '../store-address.ts';

interface Options {
  readonly port: string;
  readonly demo?: boolean;
}

const FIRST_PORT = 4600;
const TRIES = 20;

/** `edgeledger serve`: the app on this machine alone. */
export function register(program: Command, io: Io): void {
  program
    .command('serve')
    .description('the app, on a loopback address of this machine')
    .option('--port <n>', 'port to listen on; the next free one is taken', String(FIRST_PORT))
    .option('--demo', 'load the invented demo season if the store is empty')
    .action(async (options: Options) => {
      const port = Number(options.port);
      if (!Number.isInteger(port) || port < 0 || port > 65_535) {
        throw new UsageError(`--port: found "${options.port}"; expected a whole number from 0 to 65535.`);
      }
      await serve(io, port, options.demo === true);
    });
}

async function serve(io: Io, port: number, demo: boolean): Promise<void> {
  const { connect, recordStore, sheetStore } = await import('../../store/index.ts');
  const { buildApp, loadDemo, sheetReader } = await import('../../server/index.ts');
  const connection = await connect(storeAddress(io)).catch((error: unknown) => {
    throw new UsageError(error instanceof Error ? error.message : String(error));
  });
  const store = recordStore(connection, () => new Date().toISOString());
  if (demo && (await store.count('skaters')) === 0) await loadDemo(store, sheetStore(connection));
  const rules = rulesInUse();
  const app = await buildApp({ connection, webFolder: webFolder(), readSheet: sheetReader(rules.library), rules });
  const address = await listen(app, port);
  await io.out(`Edgeledger is at ${address}\nStop it with Ctrl+C. Everything is kept in ${shown(storeAddress(io))}.\n`);
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
  await closeWithin(app);
  await connection.close();
}

const PATIENCE_MS = 2000;

/** Lets requests in work end; whoever sends nothing more for two seconds does not hold the process. */
async function closeWithin(app: { close: () => Promise<unknown>; server: Server }): Promise<void> {
  app.server.closeIdleConnections();
  const last = setTimeout(() => app.server.closeAllConnections(), PATIENCE_MS);
  await app.close();
  clearTimeout(last);
}

/** The built web app beside the built command; null when only the API was built. */
function webFolder(): string | null {
  const folder = fileURLToPath(new URL('../../web', import.meta.url));
  return existsSync(folder) ? folder : null;
}

const shown = (address: string): string => address.replace(/\/\/[^@/]*@/, '//…@');

/** Takes the port asked for, or the next free one. */
async function listen(
  app: { listen: (o: { port: number; host: string }) => Promise<string> },
  port: number,
): Promise<string> {
  for (let tries = 0; ; tries += 1) {
    try {
      return await app.listen({ port: port === 0 ? 0 : port + tries, host: '127.0.0.1' });
    } catch (error) {
      const busy = error instanceof Error && 'code' in error && error.code === 'EADDRINUSE';
      if (!busy || tries >= TRIES) throw new UsageError(`No free port from ${port} on: ${String(error)}`);
    }
  }
}
