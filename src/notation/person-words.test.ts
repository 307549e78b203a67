import { describe, expect, it } from 'vitest';
import { pronouns } from './person-words.ts';

describe('pronouns of a category', () => {
  it.each([
    ['novice women', 'she', 'her', 'her', 'hers', 'herself'],
    ['Junior Ladies', 'she', 'her', 'her', 'hers', 'herself'],
    ['basic novice girls', 'she', 'her', 'her', 'hers', 'herself'],
    ['senior men', 'he', 'him', 'his', 'his', 'himself'],
    ['Men, senior', 'he', 'him', 'his', 'his', 'himself'],
    ['juvenile boys', 'he', 'him', 'his', 'his', 'himself'],
    ['senior', 'they', 'them', 'their', 'theirs', 'themselves'],
    ['women and men', 'they', 'them', 'their', 'theirs', 'themselves'],
    ['', 'they', 'them', 'their', 'theirs', 'themselves'],
  ])('%s: %s', (category, she, her, hersOf, hers, herself) => {
    expect(pronouns(category)).toMatchObject({ she, her, hersOf, hers, herself });
  });

  it('says they where no category is known, and the verb that goes with it', () => {
    expect(pronouns(null).she).toBe('they');
    expect(pronouns(undefined).plural).toBe(true);
    expect(pronouns('junior men').plural).toBe(false);
  });
});
