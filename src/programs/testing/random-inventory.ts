import type { ChosenRules, ContentRules } from '../../rulebook/index.ts';
import type { Inventory, LayoutElement, Outcome } from '../../scoring/index.ts';

/** Random numbers that come again with the same seed. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const pick = <T>(list: readonly T[], random: () => number): T => {
  const found = list[Math.floor(random() * list.length)];
  if (found === undefined) throw new Error('nothing to pick from');
  return found;
};

const less = (jump: string): string => `${Math.max(1, Number(jump[0]) - 1)}${jump.slice(1)}`;

const half = (random: () => number): number => Math.round(random() * 8 - 4) / 2;

function spread(random: () => number): Outcome['grades'] {
  const grade = half(random);
  return random() < 0.5
    ? [{ grade, p: 1 }]
    : [
        { grade, p: 0.5 },
        { grade: grade + 0.5, p: 0.5 },
      ];
}

/** A jump element that may be popped, lose its second jump, or end in a fall. */
export function randomJump(code: string, random: () => number): LayoutElement {
  const sure = 0.4 + 0.5 * random();
  const [first = '', ...others] = code.split('+');
  const wrong =
    random() < 0.5 ? { code: [less(first), ...others].join('+'), fall: false } : { code: first, fall: random() < 0.6 };
  return entry(code, [
    { p: sure, code, grades: spread(random), fall: false },
    { p: 1 - sure, grades: spread(random), ...wrong },
  ]);
}

export const entry = (code: string, outcomes: readonly Outcome[] | null, max: number | null = null): LayoutElement => ({
  code,
  start: null,
  half: null,
  grade: null,
  outcomes,
  max,
  stage: null,
  since: null,
  notBefore: null,
});

/** A spin or sequence at its level or one below. */
export function randomOther(code: string, random: () => number): LayoutElement {
  const sure = 0.3 + 0.6 * random();
  const lower = code.replace(/[2-4]$/, (level) => String(Number(level) - 1));
  return entry(code, [
    { p: sure, code, grades: spread(random), fall: false },
    { p: 1 - sure, code: lower, grades: spread(random), fall: random() < 0.2 },
  ]);
}

/** An inventory of these entries: no components, no form of the day, so nothing is hidden. */
export const inventoryOf = (
  elements: readonly LayoutElement[],
  head: Pick<Inventory, 'season' | 'category' | 'segment'>,
  constraints: Partial<Inventory['constraints']> = {},
): Inventory => ({
  id: null,
  body: 'isu',
  date: null,
  rulebook: null,
  skater: null,
  components: [],
  form: { sd: 0 },
  duration: null,
  warnings: [],
  combine: 'listed',
  ...head,
  elements,
  constraints: { must: [], never: [], latePenalty: 0, ...constraints },
});

/** The same rules with other content. */
export const withContent = (rules: ChosenRules, change: Partial<ContentRules>): ChosenRules => {
  const { content } = rules;
  return {
    ...rules,
    content: Object.create(content, {
      content: {
        value: (...asked: Parameters<typeof content.content>) => {
          const known = content.content(...asked);
          return known === undefined ? undefined : { ...known, ...change };
        },
      },
    }) as typeof content,
  };
};
