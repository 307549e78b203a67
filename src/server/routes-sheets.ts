import { z } from 'zod';
import type { App, Context } from './context.ts';
import { ServerError } from './errors.ts';
import { errorResponses, idParams, jobSchema } from './schemas.ts';

const MEGABYTE = 1024 * 1024;
const tags = ['sheets'];
const named = z.looseObject({ 'x-sheet-name': z.string().max(600).optional() });

/** An original sheet in, a job out that reads it; the original back, byte for byte. */
export function sheetRoutes(app: App, context: Context): void {
  app.addContentTypeParser('application/octet-stream', { parseAs: 'buffer' }, (_request, body, done) => {
    done(null, body);
  });
  app.post(
    '/api/sheets',
    {
      bodyLimit: 32 * MEGABYTE,
      schema: {
        tags,
        description: 'The bytes of a sheet (PDF, HTML, CSV, JSON, text, photograph). Answers the job that reads it.',
        consumes: ['application/octet-stream'],
        headers: named,
        querystring: z.object({
          keep: z.enum(['now', 'later']).default('later').describe('now: keep the original too; it may name others'),
        }),
        body: z.unknown(),
        response: { 202: jobSchema, ...errorResponses },
      },
    },
    async ({ body, headers, query }, reply) => {
      const bytes = bytesOf(body);
      const name = decoded(headers['x-sheet-name']);
      const sheetId = query.keep === 'now' ? await keep(context, bytes, name) : null;
      const job = context.jobs.start(`Reading ${name}.`, async (progress, signal) => {
        const read = await context.readSheet(bytes, name, progress, signal);
        return { sheetId, name, ...read };
      });
      return reply.code(202).send(job);
    },
  );
  app.post(
    '/api/sheets/keep',
    {
      bodyLimit: 32 * MEGABYTE,
      schema: {
        tags,
        description: 'Keeps the original of a sheet that was read elsewhere; the same bytes are kept once.',
        consumes: ['application/octet-stream'],
        headers: named,
        body: z.unknown(),
        response: { 201: z.object({ sheetId: z.string() }), ...errorResponses },
      },
    },
    async ({ body, headers }, reply) => {
      const sheetId = await keep(context, bytesOf(body), decoded(headers['x-sheet-name']));
      return reply.code(201).send({ sheetId });
    },
  );
  app.get(
    '/api/sheets/:id',
    { schema: { tags, params: idParams, response: errorResponses } },
    async ({ params }, reply) => {
      const sheet = await context.sheets.get(params.id);
      if (sheet === null) throw new ServerError('sheet.missing', `No sheet with the id "${params.id}".`);
      // Never shown inside the app: an uploaded page must not run with its rights.
      await reply
        .type('application/octet-stream')
        .header('content-disposition', `attachment; filename="${encodeURIComponent(sheet.name)}"`)
        .send(Buffer.from(sheet.bytes) as never);
    },
  );
}

function bytesOf(body: unknown): Buffer {
  if (Buffer.isBuffer(body) && body.byteLength > 0) return body;
  throw new ServerError('request.invalid', 'Send the bytes of a sheet as application/octet-stream.');
}

const keep = (context: Context, bytes: Uint8Array, name: string): Promise<string> =>
  context.sheets.keepOnce({
    id: context.newId(),
    name,
    media: 'application/octet-stream',
    bytes,
    receivedAt: context.now(),
  });

function decoded(header: string | undefined): string {
  try {
    return decodeURIComponent(header ?? 'sheet').slice(0, 200);
  } catch {
    return 'sheet';
  }
}
