import type {
  BasicPosition,
  EdgeCall,
  JumpMarker,
  JumpName,
  KeyPoint,
  Level,
  RotationCall,
  SpinPosition,
} from './vocabulary.ts';

/** One jump as the technical panel called it. */
export interface Jump {
  readonly name: JumpName;
  /** Revolutions of the listed jump, 0 to 5; 0 is a jump without rotation, printed `A`, `Lo`, `Lz`. */
  readonly turns: number;
  readonly rotation: RotationCall | null;
  readonly edge: EdgeCall | null;
  /** `*`: this jump has no value; the other jumps of the element keep theirs. */
  readonly noValue: boolean;
}

export interface JumpElement {
  readonly kind: 'jump';
  /** In the order skated; one to four. */
  readonly jumps: readonly Jump[];
  /** Markers where the sheet printed them: `after` is the number of jumps printed before it (1…). */
  readonly markers: readonly { readonly marker: JumpMarker; readonly after: number }[];
}

export interface SpinElement {
  readonly kind: 'spin';
  readonly flying: boolean;
  readonly changeFoot: boolean;
  readonly position: SpinPosition;
  /** null: no level was confirmed and the element has no value. */
  readonly level: Level | null;
  /** 0 none, 1 for `V` (or `V1`), 2 for `V2`. */
  readonly v: 0 | 1 | 2;
  readonly noValue: boolean;
}

export interface StepElement {
  readonly kind: 'steps';
  readonly level: Level | null;
  readonly noValue: boolean;
}

/** `ChSq` choreographic sequence, `ChSp` choreographic spin, `ChSt` choreographic steps of some national levels. */
export interface ChoreoElement {
  readonly kind: 'choreo';
  readonly form: 'ChSq' | 'ChSp' | 'ChSt';
  /** Only level 1 exists; null: not confirmed, no value. */
  readonly level: Level | null;
  readonly noValue: boolean;
}

/** What a code says; nothing about marks or points. */
export type Element = JumpElement | SpinElement | StepElement | ChoreoElement;

/** Letters printed beside a level or a V; what they prove is the business of `levels`. */
export type Feedback =
  | { readonly kind: 'key-points'; readonly letters: readonly KeyPoint[] }
  | { readonly kind: 'missing-position'; readonly positions: readonly BasicPosition[] };

/** Everything that can stand in a code column, parsed. */
export interface ParsedCode {
  readonly element: Element;
  /** A trailing `x`: credited second half. */
  readonly half: boolean;
  /** A trailing `F`: a fall. */
  readonly fall: boolean;
  readonly feedback: Feedback | null;
}
