/** `npm run build`: rulebooks to a module, sources to dist/, the web app to dist/web. */
import { chmodSync } from 'node:fs';
import path from 'node:path';
import { ROOT, run } from './setup.mjs';

const bin = (name) => path.join(ROOT, 'node_modules', name);
run(process.execPath, [path.join(ROOT, 'scripts', 'compile-rulebooks.mjs')]);
run(process.execPath, [bin('typescript/bin/tsc'), '-p', 'tsconfig.build.json']);
// So that `npx edgeledger` finds a program, as an installed package would.
chmodSync(path.join(ROOT, 'dist', 'cli', 'main.js'), 0o755);
run(process.execPath, [bin('vite/bin/vite.js'), 'build', '--config', 'web/vite.config.ts', '--logLevel', 'warn']);
