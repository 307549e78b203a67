import { z } from 'zod';
import type { App, Context } from './context.ts';
import { ServerError } from './errors.ts';
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
        description: 'Server-sent events: one for every change of the job, the last with its result.',
        response: errorResponses,
      },
    },
    async ({ params }, reply) => {
      if (jobs.view(params.id) === null) throw missing(params.id);
      reply.hijack();
      reply.raw.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
      const end = jobs.watch(params.id, (view) => {
        reply.raw.write(`data: ${JSON.stringify(view)}\n\n`);
        if (view.state !== 'working') reply.raw.end();
      });
      await new Promise((closed) => reply.raw.once('close', closed));
      end?.();
    },
  );
}
