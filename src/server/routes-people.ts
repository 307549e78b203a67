import { z } from 'zod';
import { threeSentences } from '../season/index.ts';
import { KINDS, people, type ListQuery, type Person } from '../store/index.ts';
import type { App, Context } from './context.ts';
import { ServerError } from './errors.ts';
import { errorResponses } from './schemas.ts';

const query = z.object({
  find: z.string().max(80).optional(),
  attending: z.string().max(80).optional(),
  limit: z.coerce.number().int().min(1).max(400).default(40),
  afterName: z.string().max(200).optional(),
  afterId: z.string().max(80).optional(),
});

const person = z.object({
  skater: KINDS.skaters,
  newest: z.string().nullable().describe('Id of her newest protocol.'),
  runs: z.array(KINDS.runthroughs).describe('Her newest run-throughs, newest first, ten at most.'),
  sentences: z.object({ safer: z.string(), slipped: z.string(), fresh: z.string() }),
});

/** A page of skaters with all that the start page and Practice show of each, in one answer. */
export function peopleRoutes(app: App, { connection, store }: Context): void {
  app.get(
    '/api/people',
    {
      schema: {
        tags: ['skaters'],
        description: 'Skaters by name; `attending`: those of one event; `afterName` and `afterId`: the page after.',
        querystring: query,
        response: { 200: z.array(person), ...errorResponses },
      },
    },
    async ({ query: { find, attending, limit, afterName, afterId } }) => {
      const after = afterName !== undefined && afterId !== undefined ? { sort: afterName, id: afterId } : undefined;
      const asked: ListQuery = { find, limit, after };
      if (attending === undefined) return (await people(connection, asked)).map(lineOf);
      const event = await store.get('competitions', attending);
      if (event === null)
        throw new ServerError('record.missing', `competitions: no record with the id "${attending}".`);
      return (await people(connection, { ...asked, ids: event.skaters })).map(lineOf);
    },
  );
}

const lineOf = ({ skater, protocols, runs }: Person): z.infer<typeof person> => ({
  skater,
  newest: protocols.at(-1)?.id ?? null,
  runs: [...runs],
  sentences: threeSentences(protocols, runs),
});
