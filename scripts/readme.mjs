/** `node scripts/readme.mjs`: runs the commands of README's tour and puts their real output below them. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { ROOT } from './setup.mjs';

/** A block after `<!-- whole -->` is shown whole; others are cut to these many lines. */
const HEAD = 22;
const TAIL = 4;
const file = path.join(ROOT, 'README.md');

/** What a command prints, standard output and error together, without colour. */
function outputOf(command) {
  const args = command
    .replace(/^npx edgeledger/, '')
    .trim()
    .split(/\s+/);
  const done = spawnSync(process.execPath, ['dist/cli/main.js', ...args], { cwd: ROOT, encoding: 'utf8' });
  return `${done.stdout}${done.stderr}`.trimEnd().split('\n');
}

const shortened = (lines) =>
  lines.length <= HEAD + TAIL + 1 ? lines : [...lines.slice(0, HEAD), '…', ...lines.slice(-TAIL)];

const text = readFileSync(file, 'utf8').replace(
  /(<!-- whole -->\n)?```console\n\$ (.*)\n[^]*?```/g,
  (_, whole = '', command) => {
    const lines = outputOf(command);
    return `${whole}\`\`\`console\n${['$ ' + command, ...(whole === '' ? shortened(lines) : lines)].join('\n')}\n\`\`\``;
  },
);
writeFileSync(file, text);
