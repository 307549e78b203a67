/** What reading a sheet answers; the forms are those of the command line. */
export interface Doubt {
  readonly at: string;
  readonly read: unknown;
  readonly alternatives: readonly unknown[];
  readonly why: string;
}

export interface ReadProtocol {
  readonly form: Record<string, unknown>;
  readonly doubts: readonly Doubt[];
  readonly confidence: number;
}

/** A sheet that was read; the original is still here, and goes to the store with what is kept. */
export interface SheetRead {
  readonly original: Blob;
  readonly name: string;
  readonly protocols: readonly ReadProtocol[];
  readonly problems: readonly string[];
}

/** Reading under way. */
export interface Reading<T> {
  readonly done: Promise<T>;
  readonly stop: () => void;
}
