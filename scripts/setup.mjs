/**
 * What `npm start`, `npm test` and `npm run bench` share: make a fresh clone runnable and say what is
 * being done. Plain JavaScript on purpose: it runs before any package is installed.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync, mkdirSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import path from 'node:path';

export const ROOT = path.dirname(path.dirname(fileURLToPath(import.meta.url)));

/** Runs a command in the project folder with its output shown; ends the script if it fails. */
export function run(command, args, options = {}) {
  const done = spawnSync(command, args, { cwd: ROOT, stdio: 'inherit', ...options });
  if (done.error) stop(`${command} could not be started: ${done.error.message}`);
  if (done.status !== 0) process.exit(done.status ?? 1);
}

/** Says why and ends with a failure. */
export function stop(message) {
  console.error(message);
  process.exit(1);
}

/** Tells one line of what happens now. */
export function say(message) {
  console.log(`\n— ${message}`);
}

/** Installs the packages of package-lock.json if they are missing or the lock file has changed. */
export function installPackages() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 10)) {
    stop(`Edgeledger needs Node 20.10 or newer; this is ${process.version}. Install a newer Node and start again.`);
  }
  const lock = createHash('sha256')
    .update(readFileSync(path.join(ROOT, 'package-lock.json')))
    .digest('hex');
  const stamp = path.join(ROOT, 'node_modules', '.edgeledger-lock');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return;
  say('Installing packages (the first time this takes a minute or two).');
  run('npm', ['ci', '--no-audit', '--no-fund']);
  mkdirSync(path.dirname(stamp), { recursive: true });
  writeFileSync(stamp, lock);
}

const onPath = (program) => spawnSync('sh', ['-c', `command -v ${program}`]).status === 0;

/**
 * Installs Debian packages whose programs are missing. Where the system's package manager cannot be
 * used, says which programs to install by hand and goes on: the tests that need them then fail by name.
 * @param {{program: string, package: string, why: string}[]} wanted
 */
export function installSystemPackages(wanted) {
  const missing = wanted.filter((w) => !(w.program.startsWith('/') ? existsSync(w.program) : onPath(w.program)));
  if (missing.length === 0) return;
  const names = missing.map((m) => m.package);
  const prefix = process.getuid?.() === 0 ? [] : ['sudo', '-n'];
  say(`Missing on this machine: ${missing.map((m) => `${m.package} (${m.why})`).join(', ')}. Installing with apt-get.`);
  const apt = (...args) => {
    const [command, ...rest] = [...prefix, 'apt-get', ...args];
    return spawnSync(command, rest, { stdio: 'inherit', env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } });
  };
  if (
    !onPath('apt-get') ||
    (apt('update').status, apt('install', '-y', '--no-install-recommends', ...names).status !== 0)
  ) {
    console.error(`Could not install them here. Please install: ${names.join(', ')}.`);
  }
}
