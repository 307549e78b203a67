import { z } from 'zod';

export const problemSchema = z
  .object({
    type: z.string(),
    status: z.int(),
    title: z.string(),
    detail: z.string(),
    problems: z.array(
      z.object({ code: z.string(), at: z.string(), found: z.string(), expected: z.string(), advice: z.string() }),
    ),
  })
  .describe('Problem details: what was wrong, where, and what to do.');

/** Errors that every route may answer. */
export const errorResponses = { '4xx': problemSchema, '5xx': problemSchema } as const;

export const idParams = z.object({ id: z.string().min(1).max(80) });

export const jobSchema = z.object({
  id: z.string(),
  what: z.string(),
  state: z.enum(['working', 'done', 'stopped', 'failed']),
  share: z.number().nullable(),
  saying: z.string(),
  result: z.unknown(),
  error: z.string().nullable(),
});
