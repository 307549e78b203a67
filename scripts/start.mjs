/** `npm start`: installs what is missing, builds, and shows the demo skater's reading. */
import { installPackages, run, say } from './setup.mjs';

installPackages();
say('Building.');
run('npm', ['run', '--silent', 'build']);
say('The demo: an invented novice skater, a sheet pasted from a results page, read against her planned layout.');
run('sh', [
  '-c',
  'node dist/cli/main.js read examples/novice-free-2023.txt --layout examples/novice-free-layout.json --history examples/wren-history.jsonl || test $? -eq 1',
]);
console.log('\nYour own sheet:  node dist/cli/main.js read SHEET   (also: audit, level, check, --help)');
