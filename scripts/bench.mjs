/** `npm run bench`: every file of bench/ in turn; they measure, they do not judge. */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { ROOT, installPackages, run, say } from './setup.mjs';

installPackages();
run('npm', ['run', '--silent', 'rulebooks']);
const wanted = process.argv.slice(2);
for (const file of readdirSync(path.join(ROOT, 'bench')).sort()) {
  if (!file.endsWith('.ts') || (wanted.length > 0 && !wanted.some((w) => file.startsWith(w)))) continue;
  say(`bench/${file}`);
  run(process.execPath, ['--import', 'tsx', path.join('bench', file)]);
}
