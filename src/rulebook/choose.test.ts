import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseRules, loadLibrary, shippedLibrary, type RuleQuery } from './index.ts';

/** Which rules a form gets, and what is said about it. */

const library = shippedLibrary();
const IDS = ['values', 'content', 'levels', 'deductions'] as const;

/** The newest season at hand: a new one, added every July, is no mistake of this test. */
const NEWEST = library.list().findLast((id) => id.startsWith('isu/')) ?? 'none';
const newestSaid = library.rulebook(NEWEST)?.provisional === true ? [/provisional/] : [];

/** `content` differs from the three others only where a content year of its own is asked for. */
const TABLE: readonly [query: RuleQuery, values: string, content: string, said: readonly RegExp[]][] = [
  [{ season: '2023/24', category: 'junior women', segment: 'free' }, 'isu/2023-24', 'isu/2023-24', []],
  [{ season: '2016/17', category: 'senior men', segment: 'short' }, 'isu/2016-17', 'isu/2016-17', []],
  [{ date: '2024-06-30', category: 'senior men', segment: 'short', body: 'isu' }, 'isu/2023-24', 'isu/2023-24', []],
  [{ date: '2024-07-01', category: 'senior men', segment: 'short', body: 'isu' }, 'isu/2024-25', 'isu/2024-25', []],
  // Plain novice, intermediate, juvenile: the national ladder, and it is said.
  [{ season: '2023/24', category: 'novice women', segment: 'free' }, 'us/2023-24', 'us/2023-24', [/“novice” alone/]],
  [{ season: '2022/23', category: 'juvenile boys', segment: 'free' }, 'us/2022-23', 'us/2022-23', [/“juvenile” alone/]],
  [{ season: '2023/24', category: 'intermediate men', segment: 'free', body: 'us' }, 'us/2023-24', 'us/2023-24', []],
  [{ season: '2023/24', category: 'advanced novice girls', segment: 'free' }, 'isu/2023-24', 'isu/2023-24', []],
  [
    { season: '2022/23', category: 'juvenile women', segment: 'free', body: 'Canada' },
    'canada/2022-23',
    'canada/2022-23',
    [],
  ],
  // A content year that starts in March (program requirements page 2024/25): values of the old season, content of the new.
  [{ date: '2024-03-04', category: 'novice women', segment: 'free', body: 'us' }, 'us/2023-24', 'us/2023-24', []],
  [
    { date: '2024-03-05', category: 'novice women', segment: 'free', body: 'us' },
    'us/2023-24',
    'us/2024-25',
    [/in force from 2024-03-05/],
  ],
  [{ date: '2024-07-01', category: 'novice women', segment: 'free', body: 'us' }, 'us/2024-25', 'us/2024-25', []],
  [
    { date: '2024-04-10', season: '2023/24', category: 'novice men', segment: 'free', body: 'us' },
    'us/2023-24',
    'us/2024-25',
    [/content rules are those of us\/2024-25/],
  ],
  // Season and date of one sheet may both be meant: a content year is called by its season before July.
  [
    { date: '2024-04-10', season: '2024/25', category: 'novice men', segment: 'free', body: 'us' },
    'us/2023-24',
    'us/2024-25',
    [/content rules are those of us\/2024-25/],
  ],
  // The body matters only where another one's content year is another one.
  [
    { date: '2024-04-10', category: 'junior men', segment: 'free' },
    'isu/2023-24',
    'isu/2023-24',
    [/event of us on 2024-04-10 that of us\/2024-25/],
  ],
  [{ date: '2024-01-10', category: 'junior men', segment: 'free' }, 'isu/2023-24', 'isu/2023-24', []],
  // What is not known is said.
  [
    { season: '2012/13', category: 'senior men', segment: 'short' },
    'isu/2016-17',
    'isu/2016-17',
    [/season 2012\/13: read with the nearest one, isu\/2016-17/],
  ],
  [
    { season: '2091/92', category: 'senior men', segment: 'short' },
    NEWEST,
    NEWEST,
    [new RegExp(`nearest one, ${NEWEST}`), ...newestSaid],
  ],
  [
    { date: '2010-01-01', category: 'senior men', segment: 'short' },
    'isu/2016-17',
    'isu/2016-17',
    [/known for 2010-01-01/],
  ],
  [
    { season: '2026/27', category: 'senior men', segment: 'short' },
    'isu/2026-27',
    'isu/2026-27',
    [/isu\/2026-27 is provisional/],
  ],
  [
    { season: '2019/20', date: '2023-01-01', category: 'senior men', segment: 'short' },
    'isu/2019-20',
    'isu/2019-20',
    [/date 2023-01-01 lies outside season 2019\/20/],
  ],
  [
    { category: 'junior men', segment: 'short' },
    'isu/2025-26',
    'isu/2025-26',
    [/newest season known; later rules may differ/],
  ],
  [
    { season: 'last winter', category: 'junior men', segment: 'short' },
    'isu/2025-26',
    'isu/2025-26',
    [/“last winter”/, /newest season/],
  ],
  [
    { date: 'May', season: '2023/24', category: 'junior men', segment: 'short' },
    'isu/2023-24',
    'isu/2023-24',
    [/“May”/],
  ],
  [
    { season: '2023/24', category: 'adult bronze', segment: 'free' },
    'isu/2023-24',
    'isu/2023-24',
    [/“adult bronze” is not known: read as senior women/],
  ],
  [
    { season: '2023/24', category: 'junior', segment: 'free' },
    'isu/2023-24',
    'isu/2023-24',
    [/“junior” is not known: read as junior women/],
  ],
  [{ season: '2023/24', segment: 'free' }, 'isu/2023-24', 'isu/2023-24', [/No category is given/]],
  [{ season: '2023/24', category: 'junior men' }, 'isu/2023-24', 'isu/2023-24', [/No segment is given/]],
  [
    { season: '2023/24', category: 'junior men', segment: 'free', body: 'atlantis' },
    'isu/2023-24',
    'isu/2023-24',
    [/“atlantis” has no rulebook/],
  ],
  [
    { season: '2023/24', category: 'novice men', segment: 'free', body: 'isu' },
    'isu/2023-24',
    'isu/2023-24',
    [/no category “novice men”/],
  ],
  [
    { season: '2016/17', category: 'novice men', segment: 'free', body: 'canada' },
    'canada/2019-20',
    'canada/2019-20',
    [/nearest one, canada\/2019-20/],
  ],
  // An explicit rulebook is taken at its word, whatever the season says.
  [
    { rulebook: 'isu/2019-20', season: '2023/24', category: 'junior men', segment: 'free' },
    'isu/2019-20',
    'isu/2019-20',
    [],
  ],
  [
    { rulebook: 'isu/2096-97', category: 'junior men', segment: 'free' },
    NEWEST,
    NEWEST,
    [/isu\/2096-97 is not known/, ...newestSaid],
  ],
];

describe('chooseRules', () => {
  it.each(TABLE)('%j', (query, values, content, said) => {
    const chosen = chooseRules(library, query);
    if (!chosen.ok) throw new Error(chosen.error.found);
    expect(chosen.value.id).toBe(values);
    expect(IDS.map((family) => chosen.value[family].id)).toEqual([values, content, values, values]);
    expect(chosen.value.warnings).toHaveLength(said.length);
    for (const [i, pattern] of said.entries()) expect(chosen.value.warnings[i]).toMatch(pattern);
  });

  it('reads the category and the segment', () => {
    const chosen = chooseRules(library, { season: '2023/24', category: 'Junior Ladies', segment: 'short' });
    expect(chosen.ok && chosen.value).toMatchObject({
      category: 'junior women',
      ageGroup: 'junior',
      sex: 'women',
      segment: 'short',
    });
  });

  it('refuses a rulebook id that names nothing, with a place and the known ids', () => {
    const chosen = chooseRules(library, { rulebook: 'nowhere' });
    expect(chosen.ok ? '' : chosen.error.at).toBe('rulebook');
    expect(chosen.ok ? '' : chosen.error.expected).toContain('isu/2023-24');
  });

  it('refuses a library without rulebooks', () => {
    const empty = loadLibrary([]);
    expect(empty.ok && chooseRules(empty.value, { season: '2023/24' }).ok).toBe(false);
  });

  it('never throws, whatever a form says', () => {
    const text = fc.option(
      fc.oneof(fc.string(), fc.constantFrom('2023/24', '2024-03-10', 'us', 'isu/2023-24', 'novice women')),
      {
        nil: undefined,
      },
    );
    const segment = fc.constantFrom('short', 'free', undefined);
    const query = fc.record({ rulebook: text, body: text, season: text, date: text, category: text, segment });
    fc.assert(
      fc.property(query, (asked) => {
        const chosen = chooseRules(library, asked);
        if (chosen.ok) expect(chosen.value.warnings.every((sentence) => sentence.endsWith('.'))).toBe(true);
        else expect(asked.rulebook).toBeDefined();
      }),
    );
  });
});
