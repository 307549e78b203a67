/**
 * The words of the trade as lists, so that the run-time lists and the types cannot drift apart.
 * Every other room uses these; none invents a string of its own.
 */

export const JUMP_NAMES = ['T', 'S', 'Lo', 'Eu', 'F', 'Lz', 'A'] as const;
export type JumpName = (typeof JUMP_NAMES)[number];

/** Calls on the rotation of a jump, from none to half a turn and more. */
export const ROTATION_CALLS = ['q', '<', '<<'] as const;
export type RotationCall = (typeof ROTATION_CALLS)[number];

/** Calls on the take-off edge of a flip or Lutz. */
export const EDGE_CALLS = ['!', 'e'] as const;
export type EdgeCall = (typeof EDGE_CALLS)[number];

/** Markers that concern a whole jump element. */
export const JUMP_MARKERS = ['COMBO', 'SEQ', 'REP'] as const;
export type JumpMarker = (typeof JUMP_MARKERS)[number];

/** U upright, L layback, C camel, S sit, Co combination of positions. */
export const SPIN_POSITIONS = ['U', 'L', 'C', 'S', 'Co'] as const;
export type SpinPosition = (typeof SPIN_POSITIONS)[number];

export const LEVELS = ['B', 1, 2, 3, 4] as const;
export type Level = (typeof LEVELS)[number];

export const SEGMENTS = ['short', 'free'] as const;
export type Segment = (typeof SEGMENTS)[number];

export const AGE_GROUPS = [
  'senior',
  'junior',
  'advanced novice',
  'intermediate novice',
  'basic novice',
  'novice',
  'intermediate',
  'juvenile',
] as const;
export type AgeGroup = (typeof AGE_GROUPS)[number];

export const SEXES = ['women', 'men'] as const;
export type Sex = (typeof SEXES)[number];

/** E.g. `junior women`. The `… novice` groups are the ISU's; plain novice and below are national. */
export type Category = `${AgeGroup} ${Sex}`;

/** Y met, N not met, T met with a timing fault (kept if a sheet prints it). */
export const KEY_POINTS = ['Y', 'N', 'T'] as const;
export type KeyPoint = (typeof KEY_POINTS)[number];

/** The position whose absence a V's letters name: NC, NS, NU. */
export const BASIC_POSITIONS = ['camel', 'sit', 'upright'] as const;
export type BasicPosition = (typeof BASIC_POSITIONS)[number];
