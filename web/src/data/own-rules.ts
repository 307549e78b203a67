import type { RulebookFile } from '../../../src/rulebook/index.ts';

type OwnFile = Pick<RulebookFile, 'path' | 'document'>;

let own: readonly OwnFile[] = [];
let loading: Promise<void> | null = null;

/**
 * Asks once, before anything is computed, which rulebooks of the coach's own stand beside the shipped
 * ones. In a worker too: it computes with the same rules as the page.
 */
export const loadOwnRules = (): Promise<void> => (loading ??= load());

async function load(): Promise<void> {
  try {
    const answer = await fetch('/api/rulebooks');
    if (answer.ok) own = ((await answer.json()) as { own: OwnFile[] }).own;
  } catch {
    // The server does not answer: every page says so itself.
  }
}

/** The coach's own rulebook files, as the server read them when it started. */
export const ownRules = (): readonly OwnFile[] => own;
