/** `npm start`: installs what is missing, builds, and opens the app with the invented demo season. */
import { installPackages, run, say } from './setup.mjs';

installPackages();
say('Building.');
run('npm', ['run', '--silent', 'build']);
say('The app, on this machine alone. A sheet can also be read here: npx edgeledger read SHEET');
run(process.execPath, ['dist/cli/main.js', 'serve', '--demo', ...process.argv.slice(2)]);
