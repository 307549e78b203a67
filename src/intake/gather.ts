import { describeProblem } from '../notation/index.ts';
import type { IntakeItem } from './read-sheet.ts';

/** What reading a sheet answers a screen: protocols in the forms of the command line, doubts beside them. */
export interface SheetRead {
  readonly protocols: readonly {
    readonly form: object;
    readonly doubts: readonly object[];
    readonly confidence: number;
  }[];
  /** Troubles as sentences. */
  readonly problems: readonly string[];
}

/**
 * Everything of one sheet, gathered: the same for the server and for the browser.
 * @param onSkater called with the number of skaters so far, after every item.
 */
export async function gatherSheets(
  items: AsyncIterable<IntakeItem>,
  onSkater: (skaters: number) => void = () => undefined,
): Promise<SheetRead> {
  const protocols: SheetRead['protocols'][number][] = [];
  const problems: string[] = [];
  for await (const item of items) {
    if ('problem' in item) problems.push(describeProblem(item.problem));
    else {
      const { protocol, doubts, confidence } = item.sheet;
      protocols.push({ form: protocol, doubts, confidence });
      problems.push(...item.sheet.problems.map(describeProblem));
    }
    onSkater(protocols.length);
  }
  return { protocols, problems };
}
