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

export interface SheetRead {
  readonly sheetId: string;
  readonly name: string;
  readonly protocols: readonly ReadProtocol[];
  readonly problems: readonly string[];
}
