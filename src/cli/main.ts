#!/usr/bin/env node
import { processIo } from './io.ts';
import { run } from './run.ts';

const io = processIo(process);
// A fault of our own is told in one line; nobody is helped by a stack of calls.
process.on('uncaughtException', (error) => {
  io.err(`edgeledger stopped on a fault of its own: ${error.message}\n`);
  process.exit(2);
});
await run(process.argv.slice(2), io);
process.exitCode = io.code();
