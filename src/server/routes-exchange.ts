import { Readable } from 'node:stream';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { exportLines, importText } from '../store/index.ts';
import type { App, Context } from './context.ts';
import { loadDemo } from './demo/season.ts';
import { ServerError } from './errors.ts';
import { errorResponses } from './schemas.ts';

const counts = z.object({
  records: z.int(),
  sheets: z.int(),
  loose: z.array(z.string()).describe('References that lead to nothing in the file.'),
});
const edit = z.object({ no: z.int(), at: z.string(), kind: z.string(), id: z.string() });

/** Everything out, everything in, the last edit taken back, a fresh start. */
export function exchangeRoutes(app: App, context: Context): void {
  const tags = ['everything'];

  app.get(
    '/api/export',
    { schema: { tags, description: 'Everything as one file of JSON Lines.', response: errorResponses } },
    async (_request, reply: FastifyReply) => {
      const file = Readable.from(exportLines(context.connection));
      await reply
        .type('application/x-ndjson')
        .header('content-disposition', 'attachment; filename="edgeledger-export.jsonl"')
        .send(file);
    },
  );
  app.post(
    '/api/import',
    {
      schema: {
        tags,
        description: 'Replaces everything by the content of an export. All or nothing.',
        body: z.object({ text: z.string() }),
        response: { 200: counts, ...errorResponses },
      },
      bodyLimit: 256 * 1024 * 1024,
    },
    async ({ body }) => {
      const done = await importText(context.connection, body.text);
      if (!done.ok) throw new ServerError('import.refused', done.error.found, [done.error]);
      return { ...done.value, loose: [...done.value.loose] };
    },
  );
  app.post(
    '/api/undo',
    { schema: { tags, description: 'Takes back the newest edit.', response: { 200: edit, ...errorResponses } } },
    async () => {
      const undone = await context.store.undo();
      if (undone === null) throw new ServerError('undo.nothing', 'No edit is left that could be taken back.');
      return undone;
    },
  );
  app.post(
    '/api/demo',
    {
      schema: {
        tags,
        description: 'Loads the invented demo season beside what is there.',
        response: { 204: z.null(), ...errorResponses },
      },
    },
    async (_request, reply) => {
      await loadDemo(context.store, context.sheets);
      return reply.code(204).send(null);
    },
  );
  app.post(
    '/api/clear',
    {
      schema: {
        tags,
        description: 'Removes everything, for instance the demo season, to start with one’s own.',
        body: z.object({ confirm: z.literal('remove everything') }),
        response: { 204: z.null(), ...errorResponses },
      },
    },
    async (_request, reply) => {
      await context.store.clear();
      return reply.code(204).send(null);
    },
  );
}
