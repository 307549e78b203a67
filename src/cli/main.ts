#!/usr/bin/env node
import { processIo } from './io.ts';
import { run } from './run.ts';

const io = processIo(process);
await run(process.argv.slice(2), io);
process.exitCode = io.code();
