import { z } from 'zod';
import type { App, Context } from './context.ts';
import { errorResponses } from './schemas.ts';

const rulebooksSchema = z.object({
  ids: z.array(z.string()).describe('Every rulebook in use, by body and season.'),
  own: z
    .array(z.object({ path: z.string(), document: z.unknown() }))
    .describe('Files of the folder of own rulebooks, to be added to the shipped ones; read when the server started.'),
});

/** The rules in use, so that the app computes with the same ones as the command line. */
export function rulebookRoutes(app: App, { rules }: Context): void {
  const answer = {
    ids: [...rules.library.list()],
    own: rules.own.map(({ path, document }) => ({ path: nameOf(path), document })),
  };
  app.get(
    '/api/rulebooks',
    {
      schema: {
        tags: ['rulebooks'],
        description: 'Which rulebooks are in use, and the coach’s own files in compiled form.',
        response: { 200: rulebooksSchema, ...errorResponses },
      },
    },
    async () => Promise.resolve(answer),
  );
}

/** Where on this machine a file lies is nobody else's business. */
const nameOf = (file: string): string => file.split(/[\\/]/).at(-1) ?? file;
