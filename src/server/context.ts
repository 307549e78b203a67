import type {
  FastifyBaseLogger,
  FastifyInstance,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { Connection, SheetStore, Store } from '../store/index.ts';
import type { Jobs } from './jobs.ts';

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
  readonly now: () => string;
  readonly newId: () => string;
}
