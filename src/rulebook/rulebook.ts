import type { Category, Segment } from '../notation/index.ts';
import type { Assembly } from './assembly.ts';
import { findCitation } from './citation.ts';
import { canonicalRowCode } from './codes.ts';
import { lazy, remember } from './remember.ts';
import { compileScale } from './scale.ts';
import * as schema from './schema.ts';
import { select } from './selectors.ts';
import { formatPath } from './tree.ts';
import type {
  Citation,
  ContentRules,
  DeductionRules,
  GoeReduction,
  ProtestRule,
  Rulebook,
  SpinRules,
  StepRules,
  ValueRow,
  ValueRules,
} from './types.ts';

/** Spellings of row codes that are remembered; a hostile file must not fill the memory. */
const REMEMBERED_SPELLINGS = 1000;

type Cite = (path: string) => Citation;

/** What a category has in a segment: a record, or nothing where the segment does not exist. */
function contentOf(assembly: Assembly, category: Category, segment: Segment): ContentRules | undefined {
  const record = select(assembly.document.content, category);
  if (record === undefined || record === null) return undefined;
  return schema.contentSchema.parse(record)[segment] ?? undefined;
}

const reductionsOf = (assembly: Assembly, cite: Cite): readonly GoeReduction[] =>
  Object.entries(schema.reductionsSchema.parse(assembly.document.reductions) ?? {}).flatMap(([call, range]) =>
    range ? [{ call, min: range.min, max: range.max, citation: cite(formatPath(['reductions', call])) }] : [],
  );

const protestsOf = (assembly: Assembly, cite: Cite): readonly ProtestRule[] =>
  Object.entries(schema.protestsSchema.parse(assembly.document.protests) ?? {}).flatMap(([key, rule]) =>
    rule ? [{ ...rule, citation: cite(formatPath(['protests', key])) }] : [],
  );

const categoriesOf = (assembly: Assembly): readonly Category[] =>
  schema.categoriesSchema
    .parse(assembly.document.categories)
    .flatMap((group): Category[] => [`${group} women`, `${group} men`]);

/** Looks rows up by their canonical code; other spellings are translated once and remembered. */
function rowLookup(rows: () => ReadonlyMap<string, ValueRow>): (code: string) => ValueRow | undefined {
  const spellings = new Map<string, ValueRow | undefined>();
  return (code) => {
    const known = rows().get(code);
    if (known !== undefined || spellings.has(code)) return known ?? spellings.get(code);
    const other = rows().get(canonicalRowCode(code));
    if (spellings.size < REMEMBERED_SPELLINGS) spellings.set(code, other);
    return other;
  };
}

/** The families that differ by category, each read once per category. */
function categoryFamilies(
  assembly: Assembly,
): Pick<Rulebook, 'components' | 'deductions' | 'steps' | 'spins' | 'content' | 'ages'> {
  const record = (family: string, category: Category): unknown => select(assembly.document[family], category);
  const components = remember((category: Category) => schema.componentsSchema.parse(record('components', category)));
  const deductions = remember((category: Category): DeductionRules =>
    schema.deductionsSchema.parse(record('deductions', category) ?? {}),
  );
  const content = {
    short: remember((category: Category) => contentOf(assembly, category, 'short')),
    free: remember((category: Category) => contentOf(assembly, category, 'free')),
  };
  return {
    components: (category, segment) => {
      const found = components(category);
      return { list: found.list, factor: found[segment].factor };
    },
    deductions: (category) => deductions(category),
    steps: remember((category: Category): StepRules => schema.stepsSchema.parse(record('steps', category))),
    spins: remember((category: Category): SpinRules => schema.spinsSchema.parse(record('spins', category))),
    content: (category, segment) => content[segment](category),
    ages: remember((category: Category) => {
      const ages = record('ages', category) ?? null;
      return ages === null ? undefined : schema.agesSchema.parse(ages);
    }),
  };
}

/**
 * A rulebook as the other rooms see it. Families are read from the merged document when somebody asks
 * for them first; the document must have passed `checkAssembly`, otherwise reading it throws.
 */
export function openRulebook(assembly: Assembly): Rulebook {
  const { layer } = assembly;
  const { body, season, title, valid, provisional } = schema.headSchema.parse(layer.head);
  const citation = remember((path: string) => findCitation(assembly, provisional, path));
  const values = lazy((): ValueRules => schema.valuesSchema.parse(assembly.document.values));
  const rows = lazy(() => compileScale(schema.scaleSchema.parse(assembly.document.scale), values().goe, citation));
  const reductions = lazy(() => reductionsOf(assembly, citation));
  const protests = lazy(() => protestsOf(assembly, citation));
  const categories = lazy(() => categoriesOf(assembly));
  return {
    id: layer.id,
    body,
    season,
    title,
    provisional,
    valid,
    extends: layer.extends,
    citation,
    row: rowLookup(rows),
    rowCodes: () => [...rows().keys()],
    reductions,
    ...categoryFamilies(assembly),
    get categories() {
      return categories();
    },
    get document() {
      return assembly.document;
    },
    get values() {
      return values();
    },
    get protests() {
      return protests();
    },
  };
}
