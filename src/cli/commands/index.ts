import type { Command } from 'commander';

import type { Io } from '../io.ts';
import * as audit from './audit.ts';
import * as backtest from './backtest.ts';
import * as best from './best.ts';
import * as check from './check.ts';
import * as compare from './compare.ts';
import * as forecast from './forecast.ts';
import * as importSheets from './import.ts';
import * as intake from './intake.ts';
import * as keep from './keep.ts';
import * as level from './level.ts';
import * as plan from './plan.ts';
import * as read from './read.ts';
import * as rescue from './rescue.ts';
import * as report from './report.ts';
import * as rulebook from './rulebook.ts';
import * as schema from './schema.ts';
import * as season from './season.ts';
import * as serve from './serve.ts';

/**
 * One module per command. A module registers itself and loads what is heavy (readers of PDF files, the
 * store, the server) only when its action runs, so that every command starts quickly.
 */
export const COMMANDS: readonly { readonly register: (program: Command, io: Io) => void }[] = [
  audit,
  backtest,
  best,
  check,
  compare,
  forecast,
  importSheets,
  intake,
  keep,
  level,
  plan,
  read,
  rescue,
  report,
  rulebook,
  schema,
  season,
  serve,
];
