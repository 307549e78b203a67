/** Words that every shape of this room uses. */

/** Integer hundredths of a point. 5.90 points are 590. */
export type Hundredths = number;

/**
 * How sure a value is. `published`: the named document was read. `memory`: recalled, inferred or
 * common practice without a document (the citation's source says which). `local`: somebody's overlay.
 */
export type CitationStatus = 'published' | 'memory' | 'local';

export interface Citation {
  /** The document, or the words "from memory", "common practice, no source", "inferred from …". */
  readonly source: string;
  readonly status: CitationStatus;
  /** The season's text was not seen: shown on every figure of such a season. */
  readonly provisional: boolean;
  /**
   * The source itself doubts the value (a weak recollection). A checker answers `unknown: check your
   * chart` for such a value instead of met or broken; a search may still use it, and says so.
   */
  readonly weak?: true;
}

/** `unknown` is never 0, never a default: whoever meets it says so. */
export type Unknown = null;
