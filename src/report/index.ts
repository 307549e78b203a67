/** Door of the room `report`: what leaves the house on paper or as a file. */
export { calendarFile, type CalendarDay } from './calendar.ts';
