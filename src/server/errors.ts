import type { Problem } from '../notation/index.ts';

/** Every way the server can say no, in one place; `docs/errors.md` lists the same codes. */
export const SERVER_ERRORS = {
  'request.invalid': { status: 400, title: 'The request does not have the expected form.' },
  'request.too-large': { status: 413, title: 'The request is larger than the server takes.' },
  'request.foreign': { status: 403, title: 'The request does not come from this app.' },
  'request.too-many': { status: 429, title: 'Too many requests in a short time. Wait a moment.' },
  'route.unknown': { status: 404, title: 'There is nothing at this address.' },
  'record.missing': { status: 404, title: 'There is no such record.' },
  'record.id-differs': { status: 409, title: 'The id in the address and the id in the record differ.' },
  'sheet.missing': { status: 404, title: 'There is no such sheet.' },
  'job.missing': { status: 404, title: 'There is no such job; it may have ended a while ago.' },
  'undo.nothing': { status: 409, title: 'There is nothing to undo.' },
  'report.held': { status: 409, title: 'The coach has not released this yet.' },
  'report.unreadable': { status: 422, title: 'A record behind this report cannot be read.' },
  'import.refused': { status: 422, title: 'The file could not be read. Nothing was kept.' },
  'server.broken': { status: 500, title: 'The server made a mistake. Nothing was kept of this request.' },
} as const;

export type ServerErrorCode = keyof typeof SERVER_ERRORS;

/** Thrown by a handler, answered as problem details (RFC 9457). */
export class ServerError extends Error {
  readonly code: ServerErrorCode;
  readonly detail: string;
  readonly problems: readonly Problem[];

  constructor(code: ServerErrorCode, detail: string, problems: readonly Problem[] = []) {
    super(SERVER_ERRORS[code].title);
    this.code = code;
    this.detail = detail;
    this.problems = problems;
  }
}

/** The body of an error answer, `application/problem+json`. */
export function problemDetails(error: ServerError) {
  const { status, title } = SERVER_ERRORS[error.code];
  return {
    type: `urn:edgeledger:${error.code}`,
    status,
    title,
    detail: error.detail,
    problems: error.problems,
  };
}
