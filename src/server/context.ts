import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { SheetRead } from '../intake/index.ts';
import type { Library, RulebookFile } from '../rulebook/index.ts';
import type { Connection, SheetStore, Store } from '../store/index.ts';
import type { Jobs, Progress } from './jobs.ts';

export type { SheetRead } from '../intake/index.ts';

/** Reads the bytes of a sheet; the command line gives the real one, tests may give their own. */
export type SheetReader = (
  bytes: Uint8Array,
  name: string,
  progress: Progress,
  signal: AbortSignal,
) => Promise<SheetRead>;

/** The app with schemas as types: what a handler gets and gives is what its schema says. */
export type App = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/** The rules in use: the shipped rulebooks with somebody's own files added, and those files as they were read. */
export interface RulesInUse {
  readonly library: Library;
  readonly own: readonly Pick<RulebookFile, 'path' | 'document'>[];
}

/** What routes work with; built once, given to every room of routes. */
export interface Context {
  readonly connection: Connection;
  readonly store: Store;
  readonly sheets: SheetStore;
  readonly jobs: Jobs;
  readonly readSheet: SheetReader;
  readonly rules: RulesInUse;
  /** For reports: the library of `rules`. */
  readonly library: Library;
  readonly now: () => string;
  readonly newId: () => string;
}
