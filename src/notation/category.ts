import { fail, ok, type Result } from './problem.ts';
import { AGE_GROUPS, type AgeGroup, type Category, type Sex } from './vocabulary.ts';

const SEX_WORDS: Readonly<Record<string, Sex>> = {
  women: 'women',
  woman: 'women',
  ladies: 'women',
  lady: 'women',
  girls: 'women',
  girl: 'women',
  men: 'men',
  man: 'men',
  boys: 'men',
  boy: 'men',
};

/** `womens`, `women's`, `Women’s`: the possessive is dropped. */
const plainWord = (word: string): string => word.replace(/['’]?s$/, (s) => (s.length > 1 ? '' : s));

/**
 * Reads a category: `Junior Women`, `Novice Ladies`, `advanced novice girls`, `Men, senior`.
 * Order, case and other words (`Single Skating`) do not matter; two different age groups or both
 * sexes are an error, and so is a missing part.
 */
export function parseCategory(text: string): Result<Category> {
  const parts = categoryParts(text);
  if (parts.ageGroup !== null && parts.sex !== null) return ok<Category>(`${parts.ageGroup} ${parts.sex}`);
  return fail({
    code: 'category.unknown',
    at: 'category',
    found: `“${text.trim().slice(0, 40)}”`,
    expected: `an age group (${AGE_GROUPS.join(', ')}) and women or men`,
    advice: parts.ageGroup === null ? 'Name the age group once.' : 'Say women or men.',
  });
}

/** The parts of a category that a text names; null where it names none or contradicts itself. */
export function categoryParts(text: string): { readonly ageGroup: AgeGroup | null; readonly sex: Sex | null } {
  const words = text
    .slice(0, 400)
    .toLowerCase()
    .split(/[^a-z'’]+/)
    .map(plainWord);
  const sexes = new Set(words.flatMap((word) => (Object.hasOwn(SEX_WORDS, word) ? (SEX_WORDS[word] ?? []) : [])));
  const [sex] = sexes;
  return { ageGroup: ageGroupOf(words), sex: sexes.size === 1 && sex !== undefined ? sex : null };
}

function ageGroupOf(words: readonly string[]): AgeGroup | null {
  const line = ` ${words.filter((word) => word !== '').join(' ')} `
    .replace(/ juniors? /g, ' junior ')
    .replace(/ seniors? /g, ' senior ');
  const named = AGE_GROUPS.filter((group) => line.includes(` ${group} `));
  // `advanced novice` contains `novice`, `intermediate novice` both of its words: the longest name wins.
  const longest = named.filter((group) => !named.some((other) => other !== group && other.includes(group)));
  const [only] = longest;
  return longest.length === 1 && only !== undefined ? only : null;
}
