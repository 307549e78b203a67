import { spawn, type ChildProcess } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { CHROMIUM } from '../sheets/chromium.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const MAIN = path.join(root, 'dist', 'cli', 'main.js');
const INDEX = path.join(root, 'dist', 'web', 'index.html');
const PATIENCE = 60_000;

/** A running app as a process of its own, with its address. */
export interface RunningApp {
  readonly address: string;
  /** Where a SQLite store lies. */
  readonly folder: string;
  readonly stop: () => Promise<void>;
}

interface StoreChoice {
  /** `postgres://…`; absent: a SQLite file in a temporary folder that is removed at the end. */
  readonly database?: string;
  readonly demo?: boolean;
  /** Folder with rulebook files of one's own. */
  readonly rulebooks?: string;
}

/**
 * Starts the built app on a free port, as the coach starts it.
 * @throws with what to do if the app is not built, or with what the process said if it does not start.
 */
export async function startApp({ database, demo, rulebooks }: StoreChoice): Promise<RunningApp> {
  for (const file of [MAIN, INDEX]) {
    if (!existsSync(file)) throw new Error(`${path.relative(root, file)} is missing: run "npm run build" first.`);
  }
  const folder = mkdtempSync(path.join(tmpdir(), 'edgeledger-web-'));
  const store = database === undefined ? { EDGELEDGER_STORE: path.join(folder, 'season.sqlite') } : {};
  const address = database === undefined ? { DATABASE_URL: '' } : { DATABASE_URL: database };
  const server = spawn(process.execPath, [MAIN, 'serve', '--port', '0', ...(demo === true ? ['--demo'] : [])], {
    cwd: folder,
    env: { ...process.env, ...store, ...address, EDGELEDGER_RULEBOOKS: rulebooks ?? '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const found = await addressOf(server);
  return {
    address: found,
    folder,
    stop: async () => {
      const gone = new Promise((resolve) => server.once('exit', resolve));
      server.kill('SIGTERM');
      await gone;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function addressOf(server: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const give = setTimeout(() => reject(new Error(`The app did not start: ${said}`)), PATIENCE);
    server.stdout?.on('data', (text: Buffer) => {
      said += text.toString();
      const address = /http:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0];
      if (address === undefined) return;
      clearTimeout(give);
      resolve(address);
    });
    server.stderr?.on('data', (text: Buffer) => (said += text.toString()));
    server.once('exit', (code) => reject(new Error(`The app ended with ${code ?? 'a signal'}: ${said}`)));
  });
}

/** A browser without window that talks to loopback alone. */
export const startBrowser = (): Promise<Browser> =>
  chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });

export const SIZES = {
  phone: { width: 390, height: 844 },
  laptop: { width: 1440, height: 900 },
} as const;
export type Size = keyof typeof SIZES;

/** A page of a size, with everything that the browser complained about. */
export interface Visit {
  readonly page: Page;
  readonly complaints: string[];
  readonly close: () => Promise<void>;
}

/** Opens a page of its own session; errors of scripts and of the console are gathered. */
export async function visit(browser: Browser, address: string, size: Size): Promise<Visit> {
  const context = await browser.newContext({ baseURL: address, viewport: SIZES[size], locale: 'en-GB' });
  context.setDefaultTimeout(20_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  return { page, complaints, close: () => context.close() };
}
