import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import staticFiles from '@fastify/static';
import swagger from '@fastify/swagger';
import { randomUUID } from 'node:crypto';
import Fastify, { type FastifyReply } from 'fastify';
import {
  hasZodFastifySchemaValidationErrors,
  jsonSchemaTransform,
  serializerCompiler,
  validatorCompiler,
} from 'fastify-type-provider-zod';
import { shippedLibrary } from '../rulebook/index.ts';
import { recordStore, sheetStore, type Connection } from '../store/index.ts';
import type { App, Context, RulesInUse, SheetReader } from './context.ts';
import { problemDetails, ServerError } from './errors.ts';
import { guardLoopback } from './guard.ts';
import { jobRunner } from './jobs.ts';
import { exchangeRoutes } from './routes-exchange.ts';
import { jobRoutes } from './routes-jobs.ts';
import { calendarRoutes } from './routes-calendar.ts';
import { peopleRoutes } from './routes-people.ts';
import { recordRoutes } from './routes-records.ts';
import { reportRoutes } from './routes-reports.ts';
import { rulebookRoutes } from './routes-rulebooks.ts';
import { sheetRoutes } from './routes-sheets.ts';
import { startRoutes } from './routes-start.ts';

export interface AppOptions {
  readonly connection: Connection;
  /** Folder of the built web app; null: API only. */
  readonly webFolder: string | null;
  readonly readSheet: SheetReader;
  /** Absent: the shipped rulebooks alone. */
  readonly rules?: RulesInUse;
  /** Names under which the server may be addressed; loopback names by default. */
  readonly hosts?: readonly string[];
  readonly now?: () => string;
  /** Requests that one address may make in a minute, default 1,200. */
  readonly requestsPerMinute?: number;
}

const REQUESTS_PER_MINUTE = 1200;
const LOOPBACK = ['127.0.0.1', 'localhost', '[::1]'];
const MEGABYTE = 1024 * 1024;

/** Builds the server without listening, so that tests can ask it with `inject`. */
export async function buildApp(options: AppOptions): Promise<App> {
  const app: App = Fastify({
    bodyLimit: 32 * MEGABYTE,
    logger: false,
    routerOptions: { maxParamLength: 200 },
    // Addresses that cannot be decoded never reach a route; they are answered in the same form.
    frameworkErrors: (error, _request, reply) => {
      void answer(error, reply);
    },
  });
  app.setValidatorCompiler(validatorCompiler);
  app.setSerializerCompiler(serializerCompiler);
  answerErrors(app);
  guardLoopback(app, options.hosts ?? LOOPBACK);
  await app.register(helmet, { contentSecurityPolicy: { directives: contentPolicy } });
  const max = options.requestsPerMinute ?? REQUESTS_PER_MINUTE;
  await app.register(rateLimit, {
    max,
    timeWindow: '1 minute',
    errorResponseBuilder: () =>
      new ServerError('request.too-many', `More than ${max.toLocaleString('en')} requests in a minute.`),
  });
  await app.register(swagger, {
    openapi: { openapi: '3.1.0', info: { title: 'Edgeledger', version: '1' } },
    transform: jsonSchemaTransform,
  });
  const now = options.now ?? (() => new Date().toISOString());
  const rules = options.rules ?? { library: shippedLibrary(), own: [] };
  const context: Context = {
    connection: options.connection,
    store: recordStore(options.connection, now),
    sheets: sheetStore(options.connection),
    jobs: jobRunner(randomUUID),
    readSheet: options.readSheet,
    rules,
    library: rules.library,
    now,
    newId: randomUUID,
  };
  await app.register((room, _options, done) => {
    const routes = room as unknown as App;
    recordRoutes(routes, context);
    startRoutes(routes, context);
    peopleRoutes(routes, context);
    exchangeRoutes(routes, context);
    jobRoutes(routes, context);
    sheetRoutes(routes, context);
    rulebookRoutes(routes, context);
    calendarRoutes(routes, context);
    reportRoutes(routes, context);
    routes.get('/api/openapi.json', { schema: { hide: true } }, () => app.swagger());
    done();
  });
  app.addHook('onClose', () => context.jobs.stopAll());
  if (options.webFolder === null) app.setNotFoundHandler(unknownRoute);
  else await serveWeb(app, options.webFolder);
  return app;
}

const contentPolicy = {
  defaultSrc: ["'self'"],
  scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
  styleSrc: ["'self'", "'unsafe-inline'"],
  imgSrc: ["'self'", 'data:', 'blob:'],
  workerSrc: ["'self'", 'blob:'],
  connectSrc: ["'self'"],
  upgradeInsecureRequests: null,
};

function unknownRoute(request: { readonly method: string; readonly url: string }): never {
  throw new ServerError('route.unknown', `${request.method} ${request.url}`);
}

async function serveWeb(app: App, folder: string): Promise<void> {
  await app.register(staticFiles, { root: folder, immutable: true, maxAge: '1h' });
  // Addresses of the app's own pages are answered with its one page; addresses of the API never are.
  app.setNotFoundHandler((request, reply) => {
    if (request.method !== 'GET' || request.url.startsWith('/api/')) unknownRoute(request);
    return reply.header('cache-control', 'no-store').sendFile('index.html', { maxAge: 0, immutable: false });
  });
}

function answerErrors(app: App): void {
  app.setErrorHandler((error, _request, reply) => answer(error, reply));
}

function answer(error: unknown, reply: FastifyReply) {
  const body = problemDetails(asServerError(error));
  return reply.code(body.status).type('application/problem+json').send(body);
}

function asServerError(error: unknown): ServerError {
  if (error instanceof ServerError) return error;
  if (hasZodFastifySchemaValidationErrors(error)) {
    const problems = error.validation.map((issue) => ({
      code: 'request.field',
      at: issue.instancePath === '' ? '/' : issue.instancePath,
      found: 'a value that does not fit',
      expected: issue.message ?? 'another value',
      advice: 'Nothing was kept. Correct the field and send again.',
    }));
    return new ServerError('request.invalid', problems.map((p) => `${p.at}: ${p.expected}`).join('; '), problems);
  }
  const { statusCode, message } = error as { statusCode?: number; message?: string };
  if (statusCode === 413) return new ServerError('request.too-large', 'Send a smaller file.');
  if (statusCode !== undefined && statusCode >= 400 && statusCode < 500) {
    return new ServerError('request.invalid', message ?? 'The request could not be read.');
  }
  return new ServerError('server.broken', 'Please try again; if it happens again, export your data and restart.');
}
