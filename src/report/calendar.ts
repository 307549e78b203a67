/** What a calendar file is made of. Dates are ISO text, whole days. */
export interface CalendarDay {
  /** Stays the same when the entry changes, so that a calendar replaces it. */
  readonly id: string;
  readonly from: string;
  /** Last day, the first included. */
  readonly to: string;
  readonly summary: string;
}

/**
 * An iCalendar file (RFC 5545) of whole days.
 *
 * @param stamp when it was made, ISO text with time
 */
export function calendarFile(days: readonly CalendarDay[], stamp: string): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Edgeledger//season//EN',
    ...days.flatMap((d) => [
      'BEGIN:VEVENT',
      `UID:${escapeText(d.id)}@edgeledger.invalid`,
      `DTSTAMP:${stamp.replace(/[-:]/g, '').replace(/\.\d+/, '')}`,
      `DTSTART;VALUE=DATE:${compact(d.from)}`,
      // The standard's end is the first day that no longer belongs to it.
      `DTEND;VALUE=DATE:${compact(dayAfter(d.to))}`,
      `SUMMARY:${escapeText(d.summary)}`,
      'END:VEVENT',
    ]),
    'END:VCALENDAR',
  ];
  return lines.map(fold).join('\r\n') + '\r\n';
}

const compact = (iso: string): string => iso.replaceAll('-', '');

function dayAfter(iso: string): string {
  const day = new Date(`${iso}T00:00:00Z`);
  day.setUTCDate(day.getUTCDate() + 1);
  return day.toISOString().slice(0, 10);
}

const escapeText = (text: string): string =>
  text
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replace(/\r?\n/g, '\\n')
    .replaceAll('\r', '');

const MOST_OCTETS = 75;

/** Lines longer than 75 octets go on in the next line after a space; a character is never cut. */
function fold(line: string): string {
  const rows: string[] = [];
  let row = '';
  let octets = 0;
  for (const sign of line) {
    const size = new TextEncoder().encode(sign).length;
    if (octets + size > MOST_OCTETS) {
      rows.push(row);
      row = ' ';
      octets = 1;
    }
    row += sign;
    octets += size;
  }
  return [...rows, row].join('\r\n');
}
