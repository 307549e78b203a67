import { z } from 'zod';
import { pdfOf } from '../report/index.ts';
import type { App, Context } from './context.ts';
import { REPORT_KINDS, reportPage } from './reports.ts';
import { errorResponses } from './schemas.ts';

const params = z.object({ kind: z.enum(REPORT_KINDS), id: z.string().min(1).max(80) });

/** Printed pages as PDF. */
export function reportRoutes(app: App, context: Context): void {
  app.get(
    '/api/reports/:kind/:id',
    {
      schema: {
        tags: ['reports'],
        description: 'One page as PDF. Nothing of a skater’s reading is printed before the coach has released it.',
        params,
        response: errorResponses,
      },
    },
    async ({ params: { kind, id } }, reply) => {
      const page = await reportPage(kind, id, context);
      const pdf = await pdfOf([page]);
      await reply
        .type('application/pdf')
        .header('content-disposition', `inline; filename="${kind}.pdf"`)
        .send(Buffer.from(pdf) as never);
    },
  );
}
