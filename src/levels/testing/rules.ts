import type { SpinRules, StepRules } from '../../rulebook/index.ts';

/**
 * Rules for tests, written out by hand from the published lists so that a test of the arithmetic does
 * not depend on the shipped data. Tests of whole seasons use the shipped rulebooks instead.
 */
export const fiveTypes: StepRules = {
  turnCounts: [5, 7, 9],
  maxPerType: 2,
  complexityCells: 11,
  countable: ['rocker', 'counter', 'bracket', 'loop', 'twizzle', 'choctaw'],
  clusterTypes: ['rocker', 'counter', 'bracket', 'loop', 'twizzle'],
  clusterRule: 'five-types',
  share: { of: 1, parts: 3 },
  prescribed: [],
  minimumForBasic: null,
  cap: 4,
  letters: ['rotation', 'body', 'clusters'],
};

export const anyTypes: StepRules = { ...fiveTypes, clusterRule: 'any' };
export const differentTriples: StepRules = { ...fiveTypes, clusterRule: 'different' };
/** National level just below novice: one letter, steps capped at 2 (common practice, no source). */
export const oneLetter: StepRules = { ...fiveTypes, cap: 2, letters: ['rotation'] };
/** International advanced novice 2024/25: prescribed turns published, cap from memory. */
export const advancedNovice: StepRules = {
  ...fiveTypes,
  cap: 3,
  minimumForBasic: 2,
  prescribed: [
    { turn: 'rocker', edge: 'FO' },
    { turn: 'loop', edge: 'BI' },
  ],
};

const once = [
  'change-of-foot-by-jump',
  'jump-same-foot',
  'change-of-position',
  'difficult-entrance',
  'difficult-exit',
  'change-of-edge',
  'both-directions',
  'increase-of-speed',
  'difficult-flying-entry',
  'back-sideways',
  'biellmann',
] as const;

/** 2023/24, senior. */
export const spins2023: SpinRules = {
  features: [
    ...once.map((name) => ({ name, limit: 'once-attempted' as const })),
    { name: 'eight-revolutions', limit: 'once-credited' },
  ],
  conditions: {
    'change-of-edge': { on: ['camel', 'sit', 'layback', 'biellmann', 'varied-upright'], revolutions: 4, firm: false },
    'both-directions': { on: ['camel', 'sit'], revolutions: 6, firm: false },
    'increase-of-speed': { on: ['camel', 'sit', 'layback', 'biellmann'], revolutions: null, firm: true },
    'eight-revolutions': {
      on: ['camel', 'layback', 'varied-sit', 'varied-upright', 'non-basic'],
      revolutions: 8,
      firm: true,
    },
  },
  gate: [
    'change-of-position',
    'difficult-exit',
    'change-of-edge',
    'both-directions',
    'increase-of-speed',
    'difficult-flying-entry',
  ],
  maxVariations: null,
  usedVariationVoidsFeature: false,
  maxFeaturesPerFoot: 2,
  revolutionsPerPosition: 2,
  minRevolutions: 3,
  minRevolutionsPerFoot: 3,
  shortFoot: { short: 'no-value', free: 'V' },
  biellmannAfter: 8,
  cap: 4,
  positionLetters: ['camel', 'sit', 'upright'],
};

/** 2021/22: entrance without exit, all positions on the second foot, no gate. */
export const spins2021: SpinRules = {
  ...spins2023,
  features: [
    ...spins2023.features.filter((feature) => feature.name !== 'difficult-exit'),
    { name: 'all-positions-second-foot', limit: 'once-attempted' },
  ],
  gate: [],
};

/** 2024/25: no gate, two variations a spin, a used variation carries no feature, difficult blade. */
export const spins2024: SpinRules = {
  ...spins2023,
  features: [...spins2023.features, { name: 'difficult-blade', limit: 'once-attempted' }],
  gate: [],
  maxVariations: 2,
  usedVariationVoidsFeature: true,
};
