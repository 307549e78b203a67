/** Door of the room `server`: the HTTP API and the static app. */
export { buildApp, type AppOptions } from './app.ts';
export type { RulesInUse, SheetRead, SheetReader } from './context.ts';
export { demoSeason, loadDemo } from './demo/season.ts';
export { sheetText } from './demo/sheet-text.ts';
export { SERVER_ERRORS, ServerError } from './errors.ts';
export { REPORT_KINDS, reportPage, type ReportKind } from './reports.ts';
export { sheetReader } from './read-sheet.ts';
