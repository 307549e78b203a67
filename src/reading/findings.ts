import { formatElement, withoutCalls } from '../notation/index.ts';
import type { Audit } from '../scoring/index.ts';
import type { Line } from './lines.ts';
import type { FeedbackEntry, ReadingFinding } from './types.ts';

/**
 * Everything to act on at the board: the audit's findings, elements that are not the planned ones
 * (possible input slips), and letters that cannot stand beside their level.
 */
export const findingsOf = (
  audit: Audit,
  lines: readonly Line[],
  feedback: readonly FeedbackEntry[],
  unread: readonly { readonly at: string; readonly text: string }[],
): ReadingFinding[] => [
  ...lines.flatMap(planFindings),
  ...audit.findings,
  ...feedback.filter((entry) => !entry.consistent).map(letterFinding),
  ...unread.map(unreadFinding),
];

const ASK = 'If it was skated as planned, ask the referee now, politely; if not, nothing is wrong with the sheet.';

/** A printed element that is another one than planned may be a slip of the key. */
function planFindings(line: Line): ReadingFinding[] {
  if (line.kind === 'added')
    return [
      slip(
        `elements[${line.skated.index}].code`,
        line.skated.code,
        null,
        `${line.skated.code} is printed and was not planned.`,
      ),
    ];
  if (line.kind === 'missing') {
    const { code, planned } = line.planned;
    return [slip(`layout.elements[${planned}].code`, null, code, `${code} was planned and is not printed.`)];
  }
  if (line.kind === 'unreadable' || line.planned === null) return [];
  const planned = formatElement(withoutLevel(line));
  const printed = formatElement(
    withoutLevel({ ...line, reference: { ...line.reference, element: line.skated.element } }),
  );
  if (planned === printed) return [];
  return [
    slip(
      `elements[${line.skated.index}].code`,
      line.skated.code,
      line.planned.code,
      `Printed ${printed}, planned ${planned}.`,
    ),
  ];
}

/** The reference element as content alone: no calls, no level. */
function withoutLevel({ reference }: Extract<Line, { kind: 'both' }>) {
  const element = withoutCalls(reference.element);
  if (element.kind === 'jump') return { ...element, markers: element.markers.filter((one) => one.marker === 'SEQ') };
  return { ...element, level: null };
}

const slip = (at: string, published: string | null, expected: string | null, what: string): ReadingFinding => ({
  kind: 'slip',
  at,
  published,
  expected,
  message: `${what} ${ASK}`,
  slip: 'code against the plan',
});

const unreadFinding = ({ at, text }: { readonly at: string; readonly text: string }): ReadingFinding => ({
  kind: 'unreadable',
  at,
  published: text,
  expected: null,
  message: `The letters “${text.slice(0, 40)}” cannot be read beside this element; nothing is read from them. Check the sheet.`,
});

function letterFinding(entry: FeedbackEntry): ReadingFinding {
  const why = entry.notes[0] ?? '';
  return {
    kind: 'letters',
    at: entry.at,
    published: entry.letters,
    expected: null,
    message: `${entry.code} cannot have the letters ${entry.letters ?? ''}: ${why === '' ? 'no account fits both' : why} Nothing is read from them; check the sheet.`,
  };
}
