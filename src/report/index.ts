/** Door of the room `report`: what leaves the house on paper or as a file. */
export { calendarFile, type CalendarDay } from './calendar.ts';
export { wordsOf, type ReportBlock, type ReportPage, type ReportRow } from './page.ts';
export { pdfOf, pdfOfText } from './pdf.ts';
export { plannedContent } from './planned-content.ts';
export { daySheet, practiceTargets, seasonReport, type DaySkater, type SeasonEvent } from './season-report.ts';
export { adviceKey, skaterPage } from './skater-page.ts';
