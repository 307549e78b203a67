import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { AGE_GROUPS, SEGMENTS, SEXES, type Category } from '../../src/notation/index.ts';
import { loadLibrary, shippedLibrary, type Rulebook } from '../../src/rulebook/index.ts';
import { readRulebookText } from '../../src/rulebook/node.ts';
import { formatPath, isTree, leaves, lookUp } from '../../src/rulebook/tree.ts';

/** The rulebooks that come with the program: complete, every value with its source, no mark made better. */

const library = shippedLibrary();
const books = library.list().flatMap((id) => library.rulebook(id) ?? []);
const HEAD = ['id', 'body', 'season', 'title', 'extends', 'provisional', 'abstract'];

const files = readdirSync('rulebooks', { recursive: true })
  .map(String)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => ({ name, read: readRulebookText(name, readFileSync(`rulebooks/${name}`, 'utf8')) }));
const documents = files.flatMap(({ read }) => (read.ok ? [read.value] : []));

const allCategories: readonly Category[] = AGE_GROUPS.flatMap((group) =>
  SEXES.map((sex): Category => `${group} ${sex}`),
);

describe('the shipped rulebooks', () => {
  it('pass the check that overlays must pass', () => {
    const loaded = loadLibrary(documents);
    expect(loaded.ok ? [] : loaded.error).toEqual([]);
  });

  it('are what was compiled', () => expect(documents.map((file) => file.path).length).toBe(books.length));

  it('cover 2016/17 to 2026/27 without a gap, and only 2026/27 is provisional', () => {
    const seasons = (body: string): string[] => books.filter((one) => one.body === body).map((one) => one.season);
    const years = Array.from({ length: 11 }, (_, i) => `${2016 + i}/${String(17 + i)}`);
    expect(seasons('isu')).toEqual(years);
    expect(seasons('us')).toEqual(years);
    for (const book of books) expect([book.id, book.provisional]).toEqual([book.id, book.season === '2026/27']);
  });

  it('leave no day without rules in any family', () => {
    for (const family of ['values', 'content', 'levels', 'deductions'] as const) {
      const periods = books.filter((one) => one.body === 'us').map((one) => one.valid[family]);
      for (const [i, period] of periods.entries()) {
        const next = periods[i + 1];
        const dayAfter = new Date(Date.parse(period.to) + 86_400_000).toISOString().slice(0, 10);
        if (next) expect(next.from).toBe(dayAfter);
      }
    }
  });

  it.each(books)('$id: every value has a source', (book) => {
    for (const { path } of leaves(book.document)) {
      if (HEAD.includes(String(path[0]))) continue;
      const citation = book.citation(formatPath(path));
      expect([formatPath(path), citation.source === '' || citation.source === 'no source stated']).toEqual([
        formatPath(path),
        false,
      ]);
      expect(citation.provisional).toBe(book.provisional);
    }
  });

  it('use every source that their tables list', () => {
    const used = new Set(documents.flatMap((file) => [...citeKeys(file.document)]));
    for (const { path, document } of documents) {
      const sources = isTree(document) && isTree(document.sources) ? Object.keys(document.sources) : [];
      expect([path, sources.filter((key) => !used.has(key))]).toEqual([path, []]);
    }
  });
});

/** Every key of a sources table that a `cite` or `takenOver` in a document names. */
function* citeKeys(node: unknown): Generator<string> {
  if (Array.isArray(node)) for (const item of node) yield* citeKeys(item);
  if (!isTree(node)) return;
  for (const [key, value] of Object.entries(node)) {
    if (key !== 'cite' && key !== 'takenOver') yield* citeKeys(value);
    else if (typeof value === 'string') yield value;
    else if (isTree(value)) yield* Object.values(value).filter((item): item is string => typeof item === 'string');
  }
}

describe('marks', () => {
  it('memory words are never marked published', () => {
    const wrong = documents.flatMap((file) => {
      const sources =
        isTree(file.document) && isTree(file.document.sources) ? Object.values(file.document.sources) : [];
      return sources.filter(
        (one) => isTree(one) && one.status === 'published' && /from memory|inferred|no source/.test(String(one.source)),
      );
    });
    expect(wrong).toEqual([]);
  });

  it('what a national ladder takes over from the ISU is remembered, not published', () => {
    for (const book of books.filter((one) => one.body !== 'isu')) {
      expect(book.citation('content.senior women.free.axelRequired').status).toBe('memory');
      expect(book.citation('steps.senior women.turnCounts').status).toBe('memory');
    }
  });

  it('common practice has no better mark', () => {
    expect(books.find((one) => one.id === 'us/2023-24')?.citation('steps.novice women.cap')).toEqual({
      source: 'common practice, no source',
      status: 'memory',
      provisional: false,
    });
  });

  it('doubtful cells of the ladder say so', () => {
    const book = books.find((one) => one.id === 'us/2023-24');
    expect(book?.citation('content.novice women.free.maxUnits').weak).toBe(true);
    expect(book?.citation('content.novice women.free.maxTurns').weak).toBeUndefined();
  });
});

describe('every family of every rulebook can be read', () => {
  it.each(books)('$id, for all categories, its own and others', (book) => {
    expect(book.values.goe.min).toBe(book.season < '2018' ? -3 : -5);
    expect(book.protests.some((rule) => rule.open)).toBe(true);
    expect(Array.isArray(book.reductions())).toBe(true);
    for (const category of allCategories) readAll(book, category);
  });
});

function readAll(book: Rulebook, category: Category): void {
  expect(book.steps(category).turnCounts).toEqual([5, 7, 9]);
  expect(book.spins(category).maxFeaturesPerFoot).toBe(2);
  book.ages(category);
  for (const segment of SEGMENTS) {
    expect(book.components(category, segment).list).toHaveLength(book.season < '2022' ? 5 : 3);
    expect(book.deductions(category, segment).falls?.every((points) => points < 0) ?? true).toBe(true);
    const content = book.content(category, segment);
    if (content) expect(lookUp(content, ['spins', 'max']).found).toBe(true);
  }
}
