import {
  categoryParts,
  fail,
  ok,
  parseCategory,
  parseSeason,
  type AgeGroup,
  type Category,
  type Result,
  type Sex,
} from '../notation/index.ts';
import type { Library } from './library.ts';
import { bodiesOf, nearestTo, openShelf, shelfOf, type Shelf } from './shelf.ts';
import { RULE_FAMILIES, type ChosenRules, type Rulebook, type RuleFamily, type RuleQuery } from './types.ts';

/** Age groups of the national ladder; alone they never mean the ISU's novice groups. */
const LADDER: ReadonlySet<AgeGroup> = new Set(['novice', 'intermediate', 'juvenile']);
const LADDER_BODY = 'us';
const WORLD_BODY = 'isu';

type Families = Readonly<Record<RuleFamily, Rulebook>>;
type Warn = (sentence: string) => void;

/**
 * Chooses the rules for a form: an explicit rulebook, else by body, season or date, category and
 * segment, each family of rules by its own dates. Whatever had to be assumed is a sentence in
 * `warnings`. Fails only for a rulebook id that names nothing.
 */
export function chooseRules(library: Library, query: RuleQuery): Result<ChosenRules> {
  const warnings: string[] = [];
  const warn: Warn = (sentence) => {
    if (!warnings.includes(sentence)) warnings.push(sentence);
  };
  const { ageGroup, sex, known } = chooseCategory(query.category, warn);
  const category: Category = `${ageGroup} ${sex}`;
  const families = chooseFamilies(library, query, known ? ageGroup : null, warn);
  if (!families.ok) return families;
  const segment = query.segment ?? 'free';
  if (query.segment === undefined) warn('No segment is given: read as a free skate.');
  if (known) warnCategory(families.value, category, warn);
  warnFamilies(families.value, warn);
  return ok({ id: families.value.values.id, ...families.value, category, ageGroup, sex, segment, warnings });
}

function chooseCategory(text: string | undefined, warn: Warn): { ageGroup: AgeGroup; sex: Sex; known: boolean } {
  const parts = text === undefined ? { ageGroup: null, sex: null } : categoryParts(text);
  if (text !== undefined && parseCategory(text).ok && parts.ageGroup !== null && parts.sex !== null) {
    return { ageGroup: parts.ageGroup, sex: parts.sex, known: true };
  }
  const ageGroup = parts.ageGroup ?? 'senior';
  const sex = parts.sex ?? 'women';
  const said = text === undefined ? 'No category is given' : `The category “${text.trim().slice(0, 40)}” is not known`;
  warn(`${said}: read as ${ageGroup} ${sex}; caps, letters, factors and deductions depend on it.`);
  return { ageGroup, sex, known: parts.ageGroup !== null };
}

// ---- the four families ---------------------------------------------------------------------------

const allOf = (rulebook: Rulebook): Families => ({
  values: rulebook,
  content: rulebook,
  levels: rulebook,
  deductions: rulebook,
});

function chooseFamilies(library: Library, query: RuleQuery, ageGroup: AgeGroup | null, warn: Warn): Result<Families> {
  if (query.rulebook !== undefined && query.rulebook.trim() !== '') return chooseById(library, query.rulebook, warn);
  const body = chooseBody(library, query.body, ageGroup, warn);
  const shelf = openShelf(library, body);
  if (!shelf) return noRulebook(library, body);
  const date = readDate(query.date, warn);
  const season = readSeason(query.season, warn);
  const families = bySeasonAndDate(shelf, body, season, date, warn);
  if (query.body === undefined && date !== null && ageGroup !== null && !LADDER.has(ageGroup)) {
    warnOtherBodies(library, body, date, families, ageGroup, warn);
  }
  return ok(families);
}

function chooseById(library: Library, id: string, warn: Warn): Result<Families> {
  const exact = library.rulebook(id.trim());
  if (exact) return ok(allOf(exact));
  const [body = '', rest = ''] = id.trim().toLowerCase().split('/', 2);
  const season = parseSeason(rest);
  const shelf = openShelf(library, body);
  if (shelf && season.ok) {
    const nearest = nearestTo(shelf, season.value);
    warn(`The rulebook ${id} is not known: read with the nearest one, ${nearest.id}.`);
    return ok(allOf(nearest));
  }
  return noRulebook(library, id);
}

const noRulebook = (library: Library, id: string): Result<never> =>
  fail({
    code: 'rulebook.unknown',
    at: 'rulebook',
    found: `“${id.slice(0, 60)}”`,
    expected: `one of ${library.list().join(', ')}`,
    advice: 'See `edgeledger rulebook list`, or leave the rulebook out and give season and category.',
  });

function chooseBody(library: Library, asked: string | undefined, ageGroup: AgeGroup | null, warn: Warn): string {
  const bodies = bodiesOf(library);
  const byCategory =
    ageGroup !== null && LADDER.has(ageGroup) && bodies.includes(LADDER_BODY) ? LADDER_BODY : WORLD_BODY;
  if (asked !== undefined) {
    const body = asked.trim().toLowerCase();
    if (bodies.includes(body)) return body;
    warn(
      `The issuing body “${asked.trim().slice(0, 40)}” has no rulebook here (known: ${bodies.join(', ')}): read with ${byCategory}.`,
    );
    return byCategory;
  }
  if (byCategory === LADDER_BODY) {
    warn(
      `No issuing body is given: “${ageGroup ?? ''}” alone is read as the national ladder (${LADDER_BODY}), most of it from memory; ` +
        'name the body, or write “advanced novice”, “intermediate novice” or “basic novice” for the ISU groups.',
    );
  }
  return byCategory;
}

function readDate(text: string | undefined, warn: Warn): string | null {
  if (text === undefined) return null;
  const day = /^\d{4}-\d{2}-\d{2}/.exec(text.trim())?.[0];
  if (day !== undefined) return day;
  warn(`The date “${text.trim().slice(0, 30)}” is not of the form 2023-10-14: not used to choose the rules.`);
  return null;
}

function readSeason(text: string | undefined, warn: Warn): string | null {
  if (text === undefined) return null;
  const season = parseSeason(text);
  if (season.ok) return season.value;
  warn(`The season “${text.trim().slice(0, 30)}” is not of the form 2023/24: not used to choose the rules.`);
  return null;
}

const covers = (rulebook: Rulebook, family: RuleFamily, date: string): boolean =>
  rulebook.valid[family].from <= date && date <= rulebook.valid[family].to;

function bySeasonAndDate(shelf: Shelf, body: string, season: string | null, date: string | null, warn: Warn): Families {
  if (season === null) return date === null ? newest(shelf, warn) : byDate(shelf, date, warn);
  const rulebook = shelf.all.find((one) => one.season === season);
  if (!rulebook) {
    const nearest = nearestTo(shelf, season);
    warn(
      `No rulebook of ${body} is known for season ${season}: read with the nearest one, ${nearest.id}; its rules may differ.`,
    );
    return allOf(nearest);
  }
  if (date === null) return allOf(rulebook);
  if (RULE_FAMILIES.some((family) => covers(rulebook, family, date))) return byDate(shelf, date, warn);
  warn(`The date ${date} lies outside season ${season}: the rules of the season given are used (${rulebook.id}).`);
  return allOf(rulebook);
}

/** The newest season whose rules were seen; provisional ones only if there is nothing else. */
function newest(shelf: Shelf, warn: Warn): Families {
  const rulebook = shelf.all.filter((one) => !one.provisional).at(-1) ?? shelf.last;
  warn(`No season and no date are given: read with ${rulebook.id}, the newest season known; later rules may differ.`);
  return allOf(rulebook);
}

function byDate(shelf: Shelf, date: string, warn: Warn): Families {
  const pick = (family: RuleFamily): Rulebook => {
    const fitting = shelf.all.find((rulebook) => covers(rulebook, family, date));
    if (fitting) return fitting;
    const nearest = date < shelf.first.valid[family].from ? shelf.first : shelf.last;
    warn(`No rulebook is known for ${date}: read with the nearest one, ${nearest.id}; its rules may differ.`);
    return nearest;
  };
  return { values: pick('values'), content: pick('content'), levels: pick('levels'), deductions: pick('deductions') };
}

// ---- what to say ---------------------------------------------------------------------------------

function warnCategory({ content }: Families, category: Category, warn: Warn): void {
  if (content.categories.includes(category)) return;
  warn(
    `${content.title} has no category “${category}”: levels and deductions are its general ones, content is unknown.`,
  );
}

function warnFamilies(families: Families, warn: Warn): void {
  const { values, content } = families;
  if (content !== values) {
    warn(
      `The content rules are those of ${content.id} (in force from ${content.valid.content.from}), the values those of ${values.id}.`,
    );
  }
  for (const rulebook of new Set(Object.values(families))) {
    if (rulebook.provisional) {
      warn(
        `${rulebook.id} is provisional: the text of season ${rulebook.season} was not seen, every figure may differ.`,
      );
    }
  }
}

/** A senior or junior sheet without a body: says so only if another body's content year is another one. */
function warnOtherBodies(
  library: Library,
  body: string,
  date: string,
  { content }: Families,
  ageGroup: AgeGroup,
  warn: Warn,
): void {
  if (!covers(content, 'content', date)) return;
  for (const other of bodiesOf(library)) {
    if (other === body) continue;
    const rulebook = shelfOf(library, other).find((one) => covers(one, 'content', date));
    if (rulebook && rulebook.season !== content.season && rulebook.categories.includes(`${ageGroup} women`)) {
      warn(
        `No issuing body is given: content is read with ${content.id}; at an event of ${other} on ${date} that of ${rulebook.id} would apply.`,
      );
    }
  }
}
