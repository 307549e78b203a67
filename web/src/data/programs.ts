import { chooseRules, type ChosenRules } from '../../../src/rulebook/index.ts';
import { readProtocol, type Protocol } from '../../../src/scoring/index.ts';
import { rules } from './rules.ts';

/** What the workers share: rules, earlier protocols, and the component factors that her sheets print. */
type Form = Readonly<Record<string, unknown>>;

interface Query {
  readonly season: string | null;
  readonly date: string | null;
  readonly category: string | null;
  readonly segment: 'short' | 'free' | null;
  readonly body: string | null;
}

/** The rules of a form; null where none can be chosen. */
export function rulesFor({ season, date, category, segment, body }: Query): ChosenRules | null {
  const chosen = chooseRules(rules(), {
    season: season ?? undefined,
    date: date ?? undefined,
    category: category ?? undefined,
    segment: segment ?? undefined,
    body: body ?? undefined,
  });
  return chosen.ok ? chosen.value : null;
}

/** Earlier protocols that can be read; the others are left out. */
export const historyOf = (forms: readonly Form[]): Protocol[] =>
  forms.flatMap((form) => {
    const read = readProtocol(form);
    return read.ok ? [read.value] : [];
  });

/**
 * A layout that says nothing of components takes their names and factors from her newest sheet of the
 * segment: some rulebooks do not know the factors of her category, but the sheet prints them.
 */
export function withFactors(layout: Form, history: readonly Form[]): Form {
  if (layout.components !== undefined) return layout;
  const newest = history
    .filter((h) => h.segment === layout.segment && Array.isArray(h.components) && h.components.length > 0)
    .toSorted((a, b) => String(a.date).localeCompare(String(b.date)))
    .at(-1);
  const printed = newest === undefined ? [] : (newest.components as { name?: unknown; factor?: unknown }[]);
  const components = printed.filter((c) => typeof c.factor === 'number');
  if (components.length === 0 || components.length !== printed.length) return layout;
  return { ...layout, components: components.map(({ name, factor }) => ({ name, factor })) };
}
