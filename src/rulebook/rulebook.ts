import type { Category, Segment } from '../notation/index.ts';
import { canonicalRowCode } from './codes.ts';
import { citeAt, resolveCite, type Layer, type Source } from './layer.ts';
import { compileScale } from './scale.ts';
import {
  agesSchema,
  categoriesSchema,
  componentsSchema,
  contentSchema,
  deductionsSchema,
  headSchema,
  protestsSchema,
  reductionsSchema,
  scaleSchema,
  spinsSchema,
  stepsSchema,
  valuesSchema,
} from './schema.ts';
import { select, selectorPaths } from './selectors.ts';
import { formatPath, isTree, lookUp, merge, parsePath, type Path, type Tree } from './tree.ts';
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

/** Remembers the answer of a function of one argument; rulebooks never change. */
function remember<K, V>(compute: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const value = known.get(key);
    if (value !== undefined || known.has(key)) return value as V;
    const fresh = compute(key);
    known.set(key, fresh);
    return fresh;
  };
}

/** Layers from the oldest ancestor to the rulebook itself, then its overlays. */
export interface Assembly {
  readonly layer: Layer;
  readonly layers: readonly Layer[];
  /** The head of the rulebook's own file and the merged values of all layers. */
  readonly document: Tree;
}

export function assemble(layer: Layer, ancestors: readonly Layer[], overlays: readonly Layer[]): Assembly {
  const layers = [...ancestors, layer, ...overlays];
  const values = layers.reduce<unknown>((merged, next) => merge(merged, next.values), {});
  return { layer, layers, document: { ...layer.head, ...(isTree(values) ? values : {}) } };
}

/** The last layer that states the value at a path, with the path as it is written there. */
export function providerOf({ layer: own, layers }: Assembly, path: Path): { layer: Layer; path: Path } | null {
  if (path[0] === 'valid') return { layer: own, path };
  for (const candidate of selectorPaths(path)) {
    for (const layer of [...layers].reverse()) {
      if (lookUp(layer.values, candidate).found) return { layer, path: candidate };
    }
  }
  return null;
}

const NO_SOURCE: Source = { source: 'no source stated', status: 'memory', weak: false };

const asCitation = ({ source, status, weak }: Source, provisional: boolean): Citation =>
  weak ? { source, status, provisional, weak: true } : { source, status, provisional };

/** Source of what this body takes over from another; null where nothing is said about the family. */
function takenOverSource({ layers, layer }: Assembly, family: string | number | undefined): Source | null {
  const own = layers.filter((other) => other.head.body === layer.head.body).reverse();
  const saying = own.find((other) => family !== undefined && Object.hasOwn(other.takenOver, family));
  return saying ? resolveCite(saying.takenOver[String(family)], [saying, ...own]) : null;
}

function sourceAt(assembly: Assembly, path: Path): Source | null {
  const provider = providerOf(assembly, path);
  if (!provider) return null;
  const { layer } = provider;
  const chain = [layer, ...[...assembly.layers].reverse().filter((other) => other !== layer)];
  const stated = resolveCite(citeAt(layer, provider.path), chain);
  if (layer.local) {
    const title = typeof layer.head.title === 'string' ? layer.head.title : layer.file.path;
    return { source: stated?.source ?? title, status: 'local', weak: false };
  }
  const source = stated ?? NO_SOURCE;
  const taken = layer.head.body === assembly.layer.head.body ? null : takenOverSource(assembly, path[0]);
  if (!taken) return source;
  const status = taken.status === 'memory' ? 'memory' : source.status;
  return { source: `${taken.source} (there: ${source.source})`, status, weak: taken.weak || source.weak };
}

/** Nearest enclosing citation of the value at a path; a path nobody states takes that of its parent. */
function findCitation(assembly: Assembly, provisional: boolean, text: string): Citation {
  for (let path = parsePath(text); path.length > 0; path = path.slice(0, -1)) {
    const source = sourceAt(assembly, path);
    if (source) return asCitation(source, provisional);
  }
  return asCitation(NO_SOURCE, provisional);
}

/** What a category has in a segment: a record, or nothing where the segment does not exist. */
function contentOf(document: Tree, category: Category, segment: Segment): ContentRules | undefined {
  const record = select(document.content, category);
  if (record === undefined || record === null) return undefined;
  return contentSchema.parse(record)[segment] ?? undefined;
}

function reductionsOf(document: Tree, citation: (path: string) => Citation): readonly GoeReduction[] {
  return Object.entries(reductionsSchema.parse(document.reductions) ?? {}).flatMap(([call, range]) =>
    range ? [{ call, min: range.min, max: range.max, citation: citation(formatPath(['reductions', call])) }] : [],
  );
}

const protestsOf = (document: Tree, citation: (path: string) => Citation): readonly ProtestRule[] =>
  Object.entries(protestsSchema.parse(document.protests)).map(([key, rule]) => ({
    ...rule,
    citation: citation(`protests.${key}`),
  }));

/**
 * A rulebook as the other rooms see it. Families are read from the merged document when somebody asks
 * for them first; the document must have passed `checkAssembly`, otherwise reading it throws.
 */
export function openRulebook(assembly: Assembly): Rulebook {
  const { document, layer } = assembly;
  const head = headSchema.parse(layer.head);
  const { provisional } = head;
  const citation = remember((path: string) => findCitation(assembly, provisional, path));
  const values = remember((_: null): ValueRules => valuesSchema.parse(document.values));
  const rows = remember((_: null) => compileScale(scaleSchema.parse(document.scale), values(null).goe, citation));
  const spellings = new Map<string, ValueRow | undefined>();
  const row = (code: string): ValueRow | undefined => {
    const known = rows(null).get(code);
    if (known !== undefined || spellings.has(code)) return known ?? spellings.get(code);
    const other = rows(null).get(canonicalRowCode(code));
    if (spellings.size < 1000) spellings.set(code, other);
    return other;
  };
  const components = remember((category: Category) => componentsSchema.parse(select(document.components, category)));
  const deductions = remember((category: Category): DeductionRules =>
    deductionsSchema.parse(select(document.deductions, category) ?? {}),
  );
  const steps = remember((category: Category): StepRules => stepsSchema.parse(select(document.steps, category)));
  const spins = remember((category: Category): SpinRules => spinsSchema.parse(select(document.spins, category)));
  const content = {
    short: remember((category: Category) => contentOf(document, category, 'short')),
    free: remember((category: Category) => contentOf(document, category, 'free')),
  };
  const reductions = remember((_: null) => reductionsOf(document, citation));
  const protests = remember((_: null) => protestsOf(document, citation));
  const ages = remember((category: Category) => {
    const record = select(document.ages, category);
    return record === undefined || record === null ? undefined : agesSchema.parse(record);
  });
  return {
    id: layer.id,
    body: head.body,
    season: head.season,
    title: head.title,
    provisional,
    extends: layer.extends,
    valid: head.valid,
    categories: categoriesSchema
      .parse(document.categories)
      .flatMap((group): Category[] => [`${group} women`, `${group} men`]),
    citation,
    document,
    get values() {
      return values(null);
    },
    get protests() {
      return protests(null);
    },
    row,
    components: (category, segment) => {
      const found = components(category);
      return { list: found.list, factor: found[segment].factor };
    },
    deductions: (category) => deductions(category),
    steps,
    spins,
    reductions: () => reductions(null),
    content: (category, segment) => content[segment](category),
    ages,
  };
}
