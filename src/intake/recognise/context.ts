import { categoryParts, type AgeGroup, type Category, type Segment, type Sex } from '../../notation/index.ts';
import type { ProtocolForm } from '../../scoring/index.ts';
import type { ElementPlan } from './element-plan.ts';
import { seasonOfDate, type Heading } from './heading.ts';
import type { Given } from './reading.ts';
import type { Season } from './rules-fit.ts';
import { doubt, type Verdict } from './verdict.ts';

/** Which rules a sheet was made under, and what says so. */
export interface Context {
  readonly fields: Pick<ProtocolForm, 'season' | 'date' | 'category' | 'segment' | 'body' | 'competition' | 'rulebook'>;
  readonly evidence: readonly string[];
}

/** The season that the person or the heading names; null: only the figures can say. */
export const namedSeason = (given: Given, heading: Heading): string | null =>
  given.season ??
  heading.season ??
  ((given.date ?? heading.date) ? seasonOfDate(given.date ?? heading.date ?? '') : null);

/** Settles season, category and segment from what was given, what headings say and what the figures allow. */
export function settleContext(
  given: Given,
  heading: Heading,
  plan: ElementPlan | null,
  figures: { readonly factor: number | null; readonly codes: readonly string[] },
  verdict: Verdict,
): Context {
  const evidence: string[] = [...heading.evidence];
  const season = settleSeason(given, heading, plan, verdict, evidence);
  const chosen = plan?.seasons[0] ?? null;
  const segment = given.segment ?? heading.segment ?? null;
  const parts =
    given.category === undefined
      ? { ageGroup: heading.ageGroup ?? null, sex: heading.sex ?? null }
      : categoryParts(given.category);
  const fits = chosen === null ? [] : fittingCategories(chosen, figures.factor);
  const category = settleCategory(given, parts, segment, fits, figures, verdict, evidence);
  judgeCarried(given, heading, category, verdict);
  if (given.category === undefined) judgeFactor(category, chosen, figures.factor, fits, verdict);
  return {
    fields: {
      ...(given.rulebook === undefined ? {} : { rulebook: given.rulebook }),
      ...(given.body === undefined ? {} : { body: given.body }),
      ...(season === null ? {} : { season }),
      ...((given.competition ?? heading.competition) === undefined
        ? {}
        : { competition: given.competition ?? heading.competition }),
      ...((given.date ?? heading.date) === undefined ? {} : { date: given.date ?? heading.date }),
      ...category,
    },
    evidence,
  };
}

/** Her own heading says something else than the one before, in words that are not known. */
function judgeCarried(
  given: Given,
  heading: Heading,
  { category, segment }: { readonly category?: string; readonly segment?: Segment },
  verdict: Verdict,
): void {
  const carried = heading.carried ?? [];
  const why = `The heading “${heading.seasonLine ?? ''}” does not say it in words that are known; taken from the sheet before.`;
  if (given.category === undefined && carried.some((name) => name !== 'segment'))
    doubt(verdict, 'category', category ?? null, [], why);
  if (given.segment === undefined && carried.includes('segment')) doubt(verdict, 'segment', segment ?? null, [], why);
}

function settleSeason(
  given: Given,
  heading: Heading,
  plan: ElementPlan | null,
  verdict: Verdict,
  evidence: string[],
): string | null {
  const named = namedSeason(given, heading);
  const fitting = [...new Set((plan?.seasons ?? []).map((one) => one.rulebook.season))];
  const closed = plan?.closed ?? { base: 0, rows: 0 };
  if (named !== null) {
    if (closed.base > 0 && fitting.length > 0 && !fitting.includes(named) && plan !== null) {
      const why = `The heading says ${named}, but the values are those of ${fitting.join(', ')} (${closed.base} of ${closed.rows} base values).`;
      doubt(verdict, 'season', named, fitting, why);
    }
    return named;
  }
  if (closed.base === 0 || closed.base < 0.5 * closed.rows) {
    doubt(
      verdict,
      'season',
      null,
      [],
      'No heading names the season and no known scale of values fits the base values.',
    );
    return null;
  }
  evidence.push(
    `season: ${closed.base} of ${closed.rows} base values and ${plan?.closed.goe ?? 0} grades fit ${fitting.join(', ')}`,
  );
  const settled = plan?.seasons.filter((one) => !one.rulebook.provisional).map((one) => one.rulebook.season) ?? [];
  const newest = (settled.length > 0 ? settled : fitting).toSorted().at(-1) ?? null;
  if (fitting.length > 1) {
    doubt(verdict, 'season', newest, fitting, 'No heading names the season; the values are the same in all of these.');
  }
  return newest;
}

/** A heading may be that of an earlier event in the file: the printed factor has to be the category's own. */
function judgeFactor(
  read: { readonly category?: string; readonly segment?: Segment },
  season: Season | null,
  factor: number | null,
  fits: readonly Fit[],
  verdict: Verdict,
): void {
  const category = season?.rulebook.categories.find((one) => one === read.category);
  if (season === null || category === undefined || read.segment === undefined || factor === null) return;
  const due = season.rulebook.components(category, read.segment).factor;
  if (due === null || due === factor) return;
  const others = fits.filter((one) => one.segment === read.segment).map((one) => one.category);
  const why = `The factor of ${category} is ${(due / 100).toFixed(2)}; ${(factor / 100).toFixed(2)} is printed.`;
  doubt(verdict, 'category', category, others, why);
  if (!fits.some((one) => one.segment === read.segment)) doubt(verdict, 'segment', read.segment, [], why);
}

interface Fit {
  readonly category: Category;
  readonly segment: Segment;
}

/** Categories and segments whose factor is the printed one. */
function fittingCategories(season: Season, factor: number | null): Fit[] {
  if (factor === null) return [];
  const { rulebook } = season;
  return rulebook.categories.flatMap((category) =>
    (['short', 'free'] as const)
      .filter((segment) => rulebook.components(category, segment).factor === factor)
      .map((segment) => ({ category, segment })),
  );
}

function settleCategory(
  given: Given,
  parts: { readonly ageGroup: AgeGroup | null; readonly sex: Sex | null },
  segment: Segment | null,
  fits: readonly Fit[],
  figures: { readonly factor: number | null; readonly codes: readonly string[] },
  verdict: Verdict,
  evidence: string[],
): { category?: string; segment?: Segment } {
  const matching = fits.filter(
    (one) =>
      (parts.sex === null || one.category.endsWith(` ${parts.sex}`)) &&
      (parts.ageGroup === null || one.category.startsWith(`${parts.ageGroup} `)) &&
      (segment === null || one.segment === segment),
  );
  const factor = figures.factor === null ? 'no factor is printed' : `factor ${(figures.factor / 100).toFixed(2)}`;
  const readSegment = segment ?? settleSegment(matching, figures.codes, factor, verdict, evidence);
  if (given.category !== undefined && (parts.ageGroup === null || parts.sex === null)) {
    return { category: given.category, ...(readSegment === null ? {} : { segment: readSegment }) };
  }
  const category =
    parts.ageGroup !== null && parts.sex !== null
      ? `${parts.ageGroup} ${parts.sex}`
      : openCategory(parts, matching, readSegment, factor, verdict, evidence);
  return { ...(category === null ? {} : { category }), ...(readSegment === null ? {} : { segment: readSegment }) };
}

function settleSegment(
  matching: readonly Fit[],
  codes: readonly string[],
  factor: string,
  verdict: Verdict,
  evidence: string[],
): Segment | null {
  const segments = [...new Set(matching.map((one) => one.segment))];
  const byCount: Segment | null =
    codes.some((code) => code.startsWith('Ch')) || codes.length > 8 ? 'free' : codes.length === 7 ? 'short' : null;
  const [only] = segments;
  if (segments.length === 1 && only !== undefined && (byCount === null || byCount === only)) {
    evidence.push(`segment: ${factor} and ${codes.length} elements fit ${only} only`);
    return only;
  }
  const best = byCount ?? only ?? null;
  doubt(
    verdict,
    'segment',
    best,
    ['short', 'free'],
    `No heading names the segment; ${codes.length} elements, ${factor}.`,
  );
  return best;
}

function openCategory(
  parts: { readonly ageGroup: AgeGroup | null; readonly sex: Sex | null },
  matching: readonly Fit[],
  segment: Segment | null,
  factor: string,
  verdict: Verdict,
  evidence: string[],
): string | null {
  const names = [
    ...new Set(matching.filter((one) => segment === null || one.segment === segment).map((one) => one.category)),
  ];
  const best =
    names.find((name) => name.startsWith('senior')) ?? names[0] ?? (parts.sex === null ? null : `senior ${parts.sex}`);
  if (names.length === 1) {
    evidence.push(`category: ${factor} fits ${names[0] ?? ''} only`);
    return names[0] ?? null;
  }
  doubt(verdict, 'category', best, names, `The heading does not name the category in full; ${factor}.`);
  return best;
}
