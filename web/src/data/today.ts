/** The day that the app takes for today; the demo season fixes one of its own. */
let fixed: string | null = null;

/** Asks once, before the first screen, whether the store fixes the day. */
export async function loadToday(): Promise<void> {
  try {
    const answer = await fetch('/api/settings');
    const all = answer.ok ? ((await answer.json()) as { id: string; value: unknown }[]) : [];
    const day = all.find((s) => s.id === 'today')?.value;
    fixed = typeof day === 'string' ? day : null;
  } catch {
    fixed = null;
  }
}

/** Today as 2026-11-25, by this device or by the demo season. */
export function today(): string {
  if (fixed !== null) return fixed;
  const d = new Date();
  return `${d.getFullYear()}-${String(d.getMonth() + 1).padStart(2, '0')}-${String(d.getDate()).padStart(2, '0')}`;
}
