import { STEP_FEATURES } from '../levels/index.ts';
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
  const { at, code, letters } = entry;
  const found = { at, published: letters, expected: null };
  if (letters === null)
    return { kind: 'rule', ...found, message: `${code}: ${ABOVE_CAP} Check the category and the sheet.` };
  const why = code.startsWith('StSq') ? whyNotSteps(code, letters) : (entry.notes[0] ?? 'No account fits both.');
  const message = `${code} cannot have the letters ${letters}: ${why} Nothing is read from them; check the sheet.`;
  return { kind: 'letters', ...found, message };
}

const ABOVE_CAP = 'The level is above the highest that the rulebook knows for this category.';

/** One level for the turns and one for each feature met; a letter that is not printed may be a Y. */
function whyNotSteps(code: string, letters: string): string {
  const missed = Array.from(letters).filter((letter) => letter === 'N').length;
  const highest = 1 + STEP_FEATURES.length - missed;
  if (Number(code.charAt('StSq'.length)) <= highest) return ABOVE_CAP;
  return `With ${missed} N, level ${highest} is the highest possible.`;
}
