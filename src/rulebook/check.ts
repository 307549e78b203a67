import type { z } from 'zod';
import { AGE_GROUPS, type Category, type Problem } from '../notation/index.ts';
import { isCleanRow } from './codes.ts';
import { expectedBy } from './expected.ts';
import { layerProblems, MOST_PROBLEMS, place, show, type Layer } from './layer.ts';
import { providerOf, type Assembly } from './assembly.ts';
import * as schema from './schema.ts';
import { isSelector, select, selectorPaths, SELECTED } from './selectors.ts';
import { formatPath, isTree, lookUp, merge, type Path } from './tree.ts';

/** Checks a rulebook after inheritance and says in which file, at which line, a value is wrong. */

const FAMILIES = ['values', 'scale', 'reductions', 'protests', 'categories', ...SELECTED] as const;

/** Where a path of the merged document was written: its file and line, else the rulebook's own file. */
function placeOf(assembly: Assembly, path: Path): string {
  for (let known = path; known.length > 0; known = known.slice(0, -1)) {
    const provider = providerOf(assembly, known);
    if (provider) return place(provider.layer.file, [...provider.path, ...path.slice(known.length)]);
  }
  return place(assembly.layer.file, path);
}

function issueProblem(assembly: Assembly, root: Path, outer: z.core.$ZodIssue): Problem {
  const { issue, expected } = expectedBy(outer);
  const path = [...root, ...issue.path.filter((part): part is string | number => typeof part !== 'symbol')];
  const unknown = issue.code === 'unrecognized_keys' ? issue.keys[0] : undefined;
  const full = unknown === undefined ? path : [...path, unknown];
  const found = selectorPaths(full)
    .map((candidate) => lookUp(assembly.document, candidate))
    .find((hit) => hit.found);
  return {
    code: 'rulebook.value',
    at: placeOf(assembly, full),
    found: unknown === undefined ? show(found?.value) : `the key ${JSON.stringify(unknown)}`,
    expected: unknown === undefined ? expected : 'a key that this family knows',
    advice: `Mend ${formatPath(full)}; docs/rulebooks.md lists the keys and their units.`,
  };
}

function against(assembly: Assembly, type: z.ZodType, value: unknown, root: Path): Problem[] {
  const read = type.safeParse(value);
  return read.success
    ? []
    : read.error.issues.slice(0, MOST_PROBLEMS).map((issue) => issueProblem(assembly, root, issue));
}

/** Keys of the own files that name something (a category, a row) which nothing would ever ask for. */
function nameProblems(assembly: Assembly, own: readonly Layer[]): Problem[] {
  const groups = schema.categoriesSchema.safeParse(assembly.document.categories);
  const known = new Set<string>(groups.success ? groups.data : AGE_GROUPS);
  const hasSelector = (text: string): boolean => text === 'all' || known.has(text.replace(/ (?:women|men)$/, ''));
  const named = (
    path: Path,
    isGood: (key: string) => boolean,
    say: (key: string) => Pick<Problem, 'code' | 'expected' | 'advice'>,
  ): Problem[] =>
    own.flatMap(({ file, values }) => {
      const { value } = lookUp(values, path);
      return (isTree(value) ? Object.keys(value) : [])
        .filter((key) => !isGood(key))
        .slice(0, MOST_PROBLEMS)
        .map((key) => ({ ...say(key), at: place(file, [...path, key]), found: JSON.stringify(key) }));
    });
  const selector = (key: string): Pick<Problem, 'code' | 'expected' | 'advice'> => ({
    code: 'rulebook.selector',
    expected: isSelector(key)
      ? `an age group of \`categories:\` (${[...known].join(', ')})`
      : '`all`, an age group (`junior`) or a category (`junior women`)',
    advice: isSelector(key) ? 'Add it to `categories:`, or remove the record.' : 'Use the names of docs/rulebooks.md.',
  });
  const row = (): Pick<Problem, 'code' | 'expected' | 'advice'> => ({
    code: 'rulebook.scale',
    expected: 'a clean code such as `3Lz`, `CCoSp3`, `StSqB` or `ChSq1`',
    advice: 'Mend the code; rows with `<`, `e` or `V` follow by themselves.',
  });
  return [
    ...SELECTED.flatMap((family) => named([family], (key) => isSelector(key) && hasSelector(key), selector)),
    ...named(['scale', 'rows'], isCleanRow, row),
  ];
}

const BY_CATEGORY = {
  components: schema.componentsSchema,
  deductions: schema.deductionsSchema,
  steps: schema.stepsSchema,
  spins: schema.spinsSchema,
  content: schema.contentSchema,
  ages: schema.agesSchema,
} as const;

/**
 * The values that the own files write, each as if nothing more special stood over it: a mistake in a general
 * record is one even where every category has a record of its own.
 */
function recordProblems(assembly: Assembly, own: readonly Layer[], categories: readonly Category[]): Problem[] {
  return own.flatMap(({ values }) =>
    SELECTED.flatMap((family) => {
      const records = values[family];
      return Object.entries(isTree(records) ? records : {}).flatMap(([selector, record]) => {
        const category = categories.find((one) => selectorPaths([family, one]).some((path) => path[1] === selector));
        if (category === undefined || !isTree(record)) return [];
        const read = BY_CATEGORY[family].safeParse(merge(select(assembly.document[family], category), record));
        return (read.success ? [] : read.error.issues)
          .filter(({ path }) => isWritten(record, path))
          .slice(0, MOST_PROBLEMS)
          .map((issue) => issueProblem(assembly, [family, selector], issue));
      });
    }),
  );
}

/** The issue is about a value of this very record, not about how several go together. */
function isWritten(record: unknown, path: readonly PropertyKey[]): boolean {
  const { found, value } = lookUp(
    record,
    path.filter((part): part is string | number => typeof part !== 'symbol'),
  );
  return found && !isTree(value);
}

function categoryProblems(assembly: Assembly, category: Category): Problem[] {
  const { document } = assembly;
  const check = (family: (typeof SELECTED)[number], type: z.ZodType, optional: boolean): Problem[] => {
    const record = select(document[family], category);
    if (optional && (record === undefined || record === null)) return [];
    return against(assembly, type, record, [family, category]);
  };
  return [
    ...check('components', schema.componentsSchema, false),
    ...check('deductions', schema.deductionsSchema, true),
    ...check('steps', schema.stepsSchema, false),
    ...check('spins', schema.spinsSchema, false),
    ...check('content', schema.contentSchema, true),
    ...check('ages', schema.agesSchema, true),
  ];
}

/** A table row may name a class of grades only if the class is there and has a figure for every grade. */
function scaleProblems(assembly: Assembly): Problem[] {
  const scale = schema.scaleSchema.safeParse(assembly.document.scale);
  const values = schema.valuesSchema.safeParse(assembly.document.values);
  if (!scale.success || !values.success) return [];
  const { table, rows } = scale.data;
  const count = values.data.goe.max - values.data.goe.min + 1;
  const problem = (path: Path, found: string, expected: string): Problem => ({
    code: 'rulebook.scale',
    at: placeOf(assembly, path),
    found,
    expected,
    advice: 'Every grade of the scale needs its points.',
  });
  if (!table && !rows) return [problem(['scale'], 'neither `table` nor `rows`', 'one of the two')];
  return [
    ...Object.entries(table?.classes ?? {})
      .filter(([, grades]) => grades.length !== count)
      .map(([name, grades]) =>
        problem(['scale', 'table', 'classes', name], `${grades.length} figures`, `${count} figures`),
      ),
    ...Object.entries(table?.rows ?? {})
      .filter(([, row]) => row.goe !== null && table?.classes[row.goe] === undefined)
      .map(([code, row]) =>
        problem(['scale', 'table', 'rows', code], `class ${row.goe ?? ''}`, 'a class of `classes`'),
      ),
  ];
}

/** The same trouble shows once per category that inherits it; people need it once. */
function once(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = `${problem.at}|${problem.expected}`;
    return seen.has(key) ? false : Boolean(seen.add(key));
  });
}

/** All troubles of one rulebook; empty: `openRulebook` and everything it gives will work. */
export function checkAssembly(assembly: Assembly): Problem[] {
  const { layer, layers, document } = assembly;
  const own: readonly Layer[] = layers.slice(layers.indexOf(layer));
  const ancestors = [...layers.slice(0, layers.indexOf(layer))].reverse();
  const shape = own.flatMap((part) => layerProblems(part, [...own.filter((other) => other !== part), ...ancestors]));
  // A file that is no mapping lacks everything; that is said once.
  if (!isTree(layer.file.document)) return shape;
  const keys = own.flatMap((part) =>
    Object.keys(part.values)
      .filter((key) => !FAMILIES.some((family) => family === key))
      .map((key) => ({
        code: 'rulebook.family',
        at: place(part.file, [key]),
        found: `the key ${JSON.stringify(key)}`,
        expected: `one of ${FAMILIES.join(', ')}`,
        advice: 'Mend the spelling or remove the key.',
      })),
  );
  const groups = schema.categoriesSchema.safeParse(document.categories);
  const categories = groups.success ? groups.data.flatMap((g): Category[] => [`${g} women`, `${g} men`]) : [];
  return once([
    ...shape,
    ...keys,
    ...against(assembly, schema.headSchema, layer.head, []),
    ...against(assembly, schema.categoriesSchema, document.categories, ['categories']),
    ...against(assembly, schema.valuesSchema, document.values, ['values']),
    ...against(assembly, schema.scaleSchema, document.scale, ['scale']),
    ...scaleProblems(assembly),
    ...against(assembly, schema.reductionsSchema, document.reductions, ['reductions']),
    ...against(assembly, schema.protestsSchema, document.protests, ['protests']),
    ...nameProblems(assembly, own),
    ...categories.flatMap((category) => categoryProblems(assembly, category)),
    ...recordProblems(assembly, own, categories),
  ]);
}
