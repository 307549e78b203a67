import { categoryParts } from './category.ts';

/** The small words that stand for a skater in a sentence. */
export interface Pronouns {
  /** Subject: “she landed”. */
  readonly she: 'she' | 'he' | 'they';
  /** Object: “give her the page”. */
  readonly her: 'her' | 'him' | 'them';
  /** Before a noun: “her page”. */
  readonly hersOf: 'her' | 'his' | 'their';
  /** Alone: “the page is hers”. */
  readonly hers: 'hers' | 'his' | 'theirs';
  readonly herself: 'herself' | 'himself' | 'themselves';
  /** The verb form that goes with the subject: “she has”, “they have”. */
  readonly plural: boolean;
}

const SHE: Pronouns = { she: 'she', her: 'her', hersOf: 'her', hers: 'hers', herself: 'herself', plural: false };
const HE: Pronouns = { she: 'he', her: 'him', hersOf: 'his', hers: 'his', herself: 'himself', plural: false };
const THEY: Pronouns = {
  she: 'they',
  her: 'them',
  hersOf: 'their',
  hers: 'theirs',
  herself: 'themselves',
  plural: true,
};

/**
 * The pronouns that go with a category as written: `novice women` (ladies, girls) → she, `men` (boys) →
 * he; where a text names neither or both, they.
 *
 * @example pronouns('junior men').hersOf // 'his'
 */
export function pronouns(category: string | null | undefined): Pronouns {
  const { sex } = categoryParts(category ?? '');
  if (sex === null) return THEY;
  return sex === 'women' ? SHE : HE;
}
