/**
 * Words of headings and labels in the languages that sheets are met in. They only help: what a figure
 * is, the arithmetic decides. To teach a word, add it to its list.
 */
import type { AgeGroup, Segment, Sex } from '../../notation/index.ts';

export const SEX_WORDS: readonly (readonly [RegExp, Sex])[] = [
  [
    /(?<!\p{L})(?:women|ladies|girls|damen|dames|femmes|donne|femminile|mädchen|naiset|tytöt|damer|kvinnor|flickor|ženy|dívky|kobiety|solistki|mujeres|damas|жен|женщины|девушки)(?!\p{L})|女子|여자/iu,
    'women',
  ],
  [
    /(?<!\p{L})(?:men|boys|herren|messieurs|hommes|uomini|maschile|jungen|miehet|pojat|herrar|pojkar|herrer|muži|mężczyźni|soliści|hombres|caballeros|муж|мужчины|юноши)(?!\p{L})|男子|남자/iu,
    'men',
  ],
];

export const AGE_WORDS: readonly (readonly [RegExp, AgeGroup])[] = [
  [/\badvanced[ -]novice\b|(?<!\p{L})novice (?:a|avancée?s?|adv)(?!\p{L})/iu, 'advanced novice'],
  [/\bintermediate[ -]novice\b/iu, 'intermediate novice'],
  [/\bbasic[ -]novice\b/iu, 'basic novice'],
  [/(?<!\p{L})(?:novice|noviisit|noviser)(?!\p{L})/iu, 'novice'],
  [/\bintermediate\b/iu, 'intermediate'],
  [/\bjuvenile\b/iu, 'juvenile'],
  [
    /(?<!\p{L})(?:juniors?|junioren|juniorinnen|juniores|juniorit|juniorer|junioři|juniorky|juniorzy|juniorki|юниоры|юниорки)(?!\p{L})|ジュニア|주니어/iu,
    'junior',
  ],
  [
    /(?<!\p{L})(?:seniors?|senioren|seniorinnen|seniores|seniorit|seniorer|senioři|seniorky|seniorzy|seniorki)(?!\p{L})|シニア|시니어/iu,
    'senior',
  ],
];

export const SEGMENT_WORDS: readonly (readonly [RegExp, Segment])[] = [
  [
    /(?<!\p{L})(?:short|kurzprogramm|(?:programme )?court|corto|lyhytohjelma|kortprogram|krátký program|program krótki|short program|короткая)(?!\p{L})|ショート|쇼트/iu,
    'short',
  ],
  [
    /(?<!\p{L})(?:free (?:skat\w+|program\w*)|free|kür|libre|libero|vapaaohjelma|friåkning|volná jízda|program dowolny|long program|произвольная)(?!\p{L})|フリー|프리/iu,
    'free',
  ],
];

/** Column headings: a line with two of these and no figures heads a table. */
export const COLUMN_WORDS =
  /^(?:#|nr?\.?|no\.?|pl\.?|place|rank|rang|name|nation|nat\.?|noc|club|verein|starting|start(?:nr|nummer)?\.?|number|total|segment|score|scores?|element|elements?|executed|info|note|base|value|goe|grade|panel|judges?|j\d{1,2}|p\d{1,2}|ref\.?|referee|factor|factored|component|components?|program|programme?|deductions?|technical|tss|tes|pcs|tcs|ded\.?|stn\.?|points?|bv|x|of|the|hinweis|basiswert|ergebnis|faktor|platz|punkte|abzüge|läufer|skater|details|per)$/iu;

export type Label = 'tes' | 'pcs' | 'total' | 'deductions' | 'bonus' | 'rank' | 'startNumber' | 'skater' | 'fall';

/** Labels of figures outside the tables, tried in this order. */
export const LABELS: readonly (readonly [RegExp, Label])[] = [
  [
    /deduct|abz[uü]g|déduction|pénalit|detrazion|deduccion|vähennyk|avdrag|fradrag|srážk|odlicz|снижен|減点|감점/iu,
    'deductions',
  ],
  [/bonus|zuschlag|加点/iu, 'bonus'],
  [/\bfalls?\b|stürze|sturz|chutes?|cadut|caíd|kaatumi|\bfall\b|pád|upad|паден|転倒|넘어/iu, 'fall'],
  [/\btime\b|zeit|temps|tempo|aika|\btid\b|costume|kostüm|illegal|interrupt|unterbrech|music/iu, 'deductions'],
  [
    /component|komponent|composant|\bpcs\b|\btcs\b|presentation score|componenti|componentes|osatekij|構成点|예술/iu,
    'pcs',
  ],
  [/element|élément|\btes\b|technical|technik|techni[qc]|elementi|tekninen|技術点|기술/iu, 'tes'],
  [
    /total|segment score|\btss\b|gesamt|summe\b|punktzahl|totale|yhteen|yhteispist|summa|celkem|razem|итог|合計|得点|총점/iu,
    'total',
  ],
  [/\brank\b|\bplace\b|platz|\brang\b|\bplac|posto|puesto|sija|pořadí|miejsce|место|順位/iu, 'rank'],
  [/\bstart|starting|\bstn\b|startn|dossard|ordre|départ|lähtö|salida|uscita|滑走順/iu, 'startNumber'],
  [/\bname\b|skater|läufer|\bnom\b|nome|nombre|patin|luistel|åkare|名前|選手/iu, 'skater'],
];

/** Nations are printed as three capitals; only these are taken off a name. */
export const NATIONS: ReadonlySet<string> = new Set(
  'AIN ALG AND ARG ARM AUS AUT AZE BEL BIH BLR BRA BUL CAN CHI CHN COL CRO CYP CZE DEN ECU ESP EST FIN FRA GBR GEO GER GRE HKG HUN IND INA IRL ISL ISR ITA JPN KAZ KGZ KOR KOS KUW LAT LIE LTU LUX MAS MDA MEX MGL MNE MON NED NOR NZL OAR PER PHI POL POR PRK PUR QAT ROC ROU RSA RUS SGP SIN SLO SRB SUI SVK SWE THA TPE TUR UAE UKR USA UZB VIE XXX'.split(
    ' ',
  ),
);

/** Words of the titles of events: such a line above the name of a segment begins another competition. */
export const EVENT_WORDS =
  /(?<!\p{L})(?:trophy|cup|championships?|open|grand prix|memorial|challenge|classic|games|\p{L}*pokal|\p{L}*meisterschaft(?:en)?|coupe|trophée|championnats?|trofeo|coppa|campionat[oi]|copa|campeonatos?|puchar|mistrzostwa|pohár|mistrovství|кубок|чемпионат)(?!\p{L})|杯|選手権/iu;

/** Lines that belong to the page, not to a skater. */
export const PAGE_WORDS =
  /^(?:page|seite|feuille|sivu|side|sida|strana|strona|pagina|página|頁|printed|gedruckt|created|report)(?!\p{L})|頁/iu;
