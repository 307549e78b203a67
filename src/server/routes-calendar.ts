import type { FastifyReply } from 'fastify';
import { calendarFile, type CalendarDay } from '../report/index.ts';
import type { RecordOf } from '../store/index.ts';
import type { App, Context } from './context.ts';
import { errorResponses } from './schemas.ts';

/** Events, deadlines and freezes as a file for any calendar. */
export function calendarRoutes(app: App, { store, now }: Context): void {
  app.get(
    '/api/calendar.ics',
    { schema: { tags: ['calendar'], description: 'An iCalendar file.', response: errorResponses } },
    async (_request, reply: FastifyReply) => {
      const events = await store.list('competitions');
      await reply.type('text/calendar; charset=utf-8').send(calendarFile(events.flatMap(daysOf), now()));
    },
  );
}

function daysOf(event: RecordOf<'competitions'>): CalendarDay[] {
  const { id, name, date, endDate, freeze, deadlines } = event;
  return [
    { id, from: date, to: endDate ?? date, summary: name },
    ...deadlines.map((d, i) => ({ id: `${id}-due-${i}`, from: d.date, to: d.date, summary: `${d.what}: ${name}` })),
    ...(freeze === null
      ? []
      : [{ id: `${id}-freeze`, from: freeze, to: freeze, summary: `Layouts are frozen from today: ${name}` }]),
  ];
}
