import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Connection, SheetStore, Store } from '../store/index.ts';
import type { Jobs, Progress } from './jobs.ts';

/** What reading a sheet answers: protocols in the forms of the command line, doubts beside them. */
export interface SheetRead {
  readonly protocols: readonly {
    readonly form: object;
    readonly doubts: readonly object[];
    readonly confidence: number;
  }[];
  readonly problems: readonly string[];
}

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

/** What routes work with; built once, given to every room of routes. */
export interface Context {
  readonly connection: Connection;
  readonly store: Store;
  readonly sheets: SheetStore;
  readonly jobs: Jobs;
  readonly readSheet: SheetReader;
  readonly now: () => string;
  readonly newId: () => string;
}
