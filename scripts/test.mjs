/** `npm test`: the whole truth in one command. Sets up a fresh machine, then runs every check and every test. */
import { readFileSync, rmSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { spawnSync } from 'node:child_process';
import { ROOT, installPackages, installSystemPackages, run, say } from './setup.mjs';

installPackages();
installSystemPackages([
  { program: '/usr/bin/chromium', package: 'chromium', why: 'sheets printed by a real browser' },
  { program: 'pdftoppm', package: 'poppler-utils', why: 'pages as pictures' },
  { program: '/usr/lib/postgresql', package: 'postgresql', why: 'the second database' },
  { program: 'gs', package: 'ghostscript', why: 'a second maker of PDF files' },
  {
    program: '/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf',
    package: 'fonts-droid-fallback',
    why: 'sheets with Japanese headings',
  },
]);

say('Building (rulebooks, compiler).');
run('npm', ['run', '--silent', 'build']);
for (const [what, script] of [
  ['Formatting', 'format:check'],
  ['Types of tests, benches and scripts', 'typecheck'],
  ['Lint', 'lint'],
  ['Rooms import only upward', 'rooms'],
  ['Nothing unused', 'unused'],
]) {
  say(`${what}.`);
  run('npm', ['run', '--silent', script]);
}

say('Tests.');
const report = path.join(ROOT, '.cache', 'tests.json');
mkdirSync(path.dirname(report), { recursive: true });
rmSync(report, { force: true });
const tests = spawnSync(
  process.execPath,
  ['node_modules/vitest/vitest.mjs', 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
  { cwd: ROOT, stdio: 'inherit' },
);
const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(report, 'utf8'));
console.log(`\n${numPassedTests} passed, ${numFailedTests} failed`);
process.exit(tests.status === 0 && numFailedTests === 0 && numPassedTests > 0 ? 0 : 1);
