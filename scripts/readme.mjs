/** `node scripts/readme.mjs`: runs the commands of README's tour and puts their real output below them. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { ROOT } from './setup.mjs';

const MOST = 64;
const HEAD = 46;
const TAIL = 8;
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

const shortened = (lines) => (lines.length <= MOST ? lines : [...lines.slice(0, HEAD), '…', ...lines.slice(-TAIL)]);

const text = readFileSync(file, 'utf8').replace(/```console\n\$ (.*)\n[^]*?```/g, (_, command) =>
  ['```console', `$ ${command}`, ...shortened(outputOf(command)), '```'].join('\n'),
);
writeFileSync(file, text);
