import { UNKNOWN_CONTENT, type Citation, type ChosenRules, type ContentRules } from '../rulebook/index.ts';

/** The rules of one segment, with what its content asks. */
export interface SegmentRules {
  readonly chosen: ChosenRules;
  /** Where the rulebook has no content for the segment, every field is unknown. */
  readonly content: ContentRules;
  readonly contentKnown: boolean;
}

/** The content rules that belong to the chosen rules. */
export function segmentRules(chosen: ChosenRules): SegmentRules {
  const content = chosen.content.content(chosen.category, chosen.segment);
  return { chosen, content: content ?? UNKNOWN_CONTENT, contentKnown: content !== undefined };
}

/** Full path of a rule in its rulebook; `values.…`, `steps.…`, `spins.…` and `scale.…` paths are whole already. */
export const rulePath = ({ chosen }: SegmentRules, path: string): string =>
  /^(values|steps|spins|scale|deductions)\./.test(path) &&
  !/^(steps|spins)\.(min|max|kinds|sameCodeForbidden)/.test(path)
    ? path
    : `content.${chosen.category}.${chosen.segment}.${path}`;

/** A rule's source: the document, how sure it is, and where the rule stands in the rulebook. */
export interface RuleCitation extends Citation {
  readonly rulebook: string;
  readonly path: string;
}

/** Cites a rule by its path inside the content of the segment, or by its whole path in another family. */
export function cite(rules: SegmentRules, path: string): RuleCitation {
  const whole = rulePath(rules, path);
  const { chosen } = rules;
  const book = whole.startsWith('content.')
    ? chosen.content
    : /^(steps|spins)\./.test(whole)
      ? chosen.levels
      : whole.startsWith('deductions.')
        ? chosen.deductions
        : chosen.values;
  return { ...book.citation(whole), rulebook: book.id, path: whole };
}
