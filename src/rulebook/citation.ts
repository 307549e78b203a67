import { providerOf, type Assembly } from './assembly.ts';
import { citeAt, resolveCite, type Source } from './layer.ts';
import { parsePath, type Path } from './tree.ts';
import type { Citation } from './types.ts';

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
export function findCitation(assembly: Assembly, provisional: boolean, text: string): Citation {
  for (let path = parsePath(text); path.length > 0; path = path.slice(0, -1)) {
    const source = sourceAt(assembly, path);
    if (source) return asCitation(source, provisional);
  }
  return asCitation(NO_SOURCE, provisional);
}
