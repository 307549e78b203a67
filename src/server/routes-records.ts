import { z } from 'zod';
import { KINDS, kindNames, type Kind, type RecordOf } from '../store/index.ts';
import type { App, Context } from './context.ts';
import { ServerError } from './errors.ts';
import { errorResponses, idParams } from './schemas.ts';

const listQuery = z.object({
  skaterId: z.string().max(80).optional(),
  competitionId: z.string().max(80).optional(),
  segment: z.string().max(10).optional(),
  season: z.string().max(10).optional(),
  aboutId: z.string().max(80).optional(),
  find: z.string().max(80).optional(),
  limit: z.coerce.number().int().min(1).max(1000).optional(),
  afterSort: z.string().max(200).optional(),
  afterId: z.string().max(80).optional(),
});

/** Read, list, write and remove for every kind of record; the kinds' own schemas are the check. */
export function recordRoutes(app: App, { store }: Context): void {
  for (const kind of kindNames) kindRoutes(app, store, kind);
}

function kindRoutes(app: App, store: Context['store'], kind: Kind): void {
  const record: z.ZodType<RecordOf<Kind>> = KINDS[kind];
  const base = `/api/${kind}`;
  const tags = [kind];

  app.get(
    base,
    { schema: { tags, querystring: listQuery, response: { 200: z.array(record), ...errorResponses } } },
    async ({ query }) => {
      const { afterSort, afterId, ...rest } = query;
      const after = afterSort !== undefined && afterId !== undefined ? { sort: afterSort, id: afterId } : undefined;
      return store.list(kind, { ...rest, after });
    },
  );
  app.get(
    `${base}/:id`,
    { schema: { tags, params: idParams, response: { 200: record, ...errorResponses } } },
    async ({ params }) => {
      const found = await store.get(kind, params.id);
      if (found === null) throw new ServerError('record.missing', `${kind}: no record with the id "${params.id}".`);
      return found;
    },
  );
  app.put(
    `${base}/:id`,
    { schema: { tags, params: idParams, body: record, response: { 200: record, ...errorResponses } } },
    async ({ params, body }) => {
      if (body.id !== params.id) {
        throw new ServerError('record.id-differs', `Address: "${params.id}", record: "${body.id}".`);
      }
      await store.put(kind, [body]);
      return body;
    },
  );
  app.delete(
    `${base}/:id`,
    { schema: { tags, params: idParams, response: { 204: z.null(), ...errorResponses } } },
    async ({ params }, reply) => {
      if (!(await store.remove(kind, params.id))) {
        throw new ServerError('record.missing', `${kind}: no record with the id "${params.id}".`);
      }
      return reply.code(204).send(null);
    },
  );
}
