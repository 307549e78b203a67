import { z } from 'zod';
import { heldProtocols, KINDS } from '../store/index.ts';
import type { App, Context } from './context.ts';
import { errorResponses } from './schemas.ts';

const heldOne = z.object({
  id: z.string(),
  skaterId: z.string(),
  name: z.string(),
  segment: KINDS.protocols.shape.segment,
});

const query = z.object({ limit: z.coerce.number().int().min(1).max(100).default(3) });

/** What waits today: asked without loading every protocol of the store. */
export function startRoutes(app: App, { connection, store }: Context): void {
  app.get(
    '/api/held',
    {
      schema: {
        tags: ['protocols'],
        description: 'How many readings are not released, and the newest of them with the skater’s name.',
        querystring: query,
        response: { 200: z.object({ count: z.int(), newest: z.array(heldOne) }), ...errorResponses },
      },
    },
    async ({ query: { limit } }) => {
      const { count, newest } = await heldProtocols(connection, limit);
      const named = newest.map(async ({ id, skaterId, segment }) => {
        const name = (await store.get('skaters', skaterId))?.name ?? 'a skater';
        return { id, skaterId, name, segment };
      });
      return { count, newest: await Promise.all(named) };
    },
  );
}
