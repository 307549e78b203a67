import type { Hundredths } from '../../rulebook/index.ts';
import { toPoints } from '../form-fields.ts';
import type { Finding, FindingKind } from './finding.ts';
import type { WrongPart } from './follows.ts';
import { ownWords, type OwnValue } from './own-values.ts';

/** Findings about figures, and what they hand on to the sums above them. */
export interface Figures {
  readonly findings: readonly Finding[];
  readonly parts: readonly WrongPart[];
}

/** A printed figure that differs from what the sheet gives. */
export interface Wrong {
  readonly at: string;
  readonly published: Hundredths;
  readonly expected: Hundredths;
  /** `grade of execution of element 3, 3Lz+3T` */
  readonly what: string;
  /** What gives the expected figure. */
  readonly from: string;
  readonly kind?: FindingKind;
  readonly slip?: string | null;
  readonly follows?: WrongPart | null;
  /** The overlay whose value the expected figure rests on. */
  readonly own?: OwnValue;
}

/** Points with two decimals, for sentences. */
export const shownPoints = (value: Hundredths): string => (value / 100).toFixed(2);

/** A figure that only adds another one rests on what that one rests on. */
const ownOf = ({ follows, own }: Wrong): OwnValue => (follows ? follows.own : own) ?? null;

/** The finding that a wrong figure is; one that follows another says so. */
export function findingOf(wrong: Wrong): Finding {
  const { at, published, expected, follows, slip } = wrong;
  const own = ownOf(wrong);
  const disagree = `The printed ${wrong.what} is ${shownPoints(published)}; ${wrong.from} ${shownPoints(expected)}.`;
  return {
    kind: follows?.kind ?? wrong.kind ?? 'calculation',
    at,
    published: toPoints(published),
    expected: toPoints(expected),
    message: `${disagree}${follows ? ` It adds the figure at ${follows.root}.` : own === null ? '' : ownWords(own)}`,
    ...(follows ? { follows: follows.root } : {}),
    // A slip of the panel is not guessed from a value that the panel does not have.
    ...(slip && !follows && own === null ? { slip } : {}),
    ...(own === null ? {} : { ownValue: own }),
  };
}

/** What a wrong figure hands on: the place where the fault began, and by how much it is off. */
export const partOf = (wrong: Wrong): WrongPart => ({
  root: wrong.follows?.root ?? wrong.at,
  kind: wrong.follows?.kind ?? wrong.kind ?? 'calculation',
  delta: wrong.published - wrong.expected,
  own: ownOf(wrong),
});

export const figuresOf = (wrongs: readonly Wrong[]): Figures => ({
  findings: wrongs.map(findingOf),
  parts: wrongs.map(partOf),
});
