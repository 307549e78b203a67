import { z } from 'zod';
import type { App, Context } from './context.ts';
import { ServerError } from './errors.ts';
import { eventWriter } from './job-events.ts';
import { MOST_WATCHERS } from './jobs.ts';
import { errorResponses, idParams, jobSchema } from './schemas.ts';

/** Watching and stopping long work. */
export function jobRoutes(app: App, { jobs }: Context): void {
  const tags = ['jobs'];
  const missing = (id: string) => new ServerError('job.missing', `No job with the id "${id}".`);

  app.get(
    '/api/jobs/:id',
    { schema: { tags, params: idParams, response: { 200: jobSchema, ...errorResponses } } },
    async ({ params }) => {
      const view = jobs.view(params.id);
      if (view === null) throw missing(params.id);
      return await Promise.resolve(view);
    },
  );
  app.delete(
    '/api/jobs/:id',
    { schema: { tags, params: idParams, response: { 204: z.null(), ...errorResponses } } },
    async ({ params }, reply) => {
      if (!jobs.stop(params.id)) throw missing(params.id);
      return reply.code(204).send(null);
    },
  );
  app.get(
    '/api/jobs/:id/events',
    {
      schema: {
        tags,
        params: idParams,
        description: 'Server-sent events: the newest state of the job; its result is at `resultAt`.',
        response: errorResponses,
      },
    },
    async ({ params }, reply) => {
      if (jobs.view(params.id) === null) throw missing(params.id);
      const tell = eventWriter(reply.raw);
      const end = jobs.watch(params.id, (view) => {
        if (!reply.raw.headersSent) {
          reply.hijack();
          reply.raw.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
        }
        tell(view);
      });
      if (end === null)
        throw new ServerError('request.too-many', `This job is watched ${MOST_WATCHERS} times already.`);
      if (!reply.raw.closed) await new Promise((closed) => reply.raw.once('close', closed));
      end();
    },
  );
}
