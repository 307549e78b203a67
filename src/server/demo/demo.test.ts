import { describe, expect, it } from 'vitest';
import { chooseRules, shippedLibrary } from '../../rulebook/index.ts';
import { audit } from '../../scoring/index.ts';
import { connect, recordStore, sheetStore } from '../../store/index.ts';
import { CAST, EVENTS } from './cast.ts';
import { demoSeason, loadDemo } from './season.ts';

describe('the demo season', () => {
  it('is made of sheets whose arithmetic closes: the audit finds nothing wrong', async () => {
    const { protocols } = await demoSeason();
    expect(protocols.length).toBeGreaterThan(30);
    for (const p of protocols) {
      const chosen = chooseRules(shippedLibrary(), {
        body: p.body ?? undefined,
        season: p.season ?? undefined,
        date: p.date ?? undefined,
        category: p.category ?? undefined,
        segment: p.segment ?? undefined,
      });
      if (!chosen.ok) throw new Error(chosen.error.found);
      expect(audit(p, chosen.value).findings, p.id ?? '').toEqual([]);
    }
  });

  it('is the same every time, and fills a store with five skaters and eight events', async () => {
    const connection = await connect(':memory:');
    const store = recordStore(connection, () => '2025-12-03T10:00:00Z');
    await loadDemo(store, sheetStore(connection));
    const first = await store.list('protocols');
    await loadDemo(store, sheetStore(connection));
    expect(await store.list('protocols')).toEqual(first);
    expect(await store.count('skaters')).toBe(CAST.length);
    expect(await store.count('competitions')).toBe(EVENTS.length);
    expect(CAST).toHaveLength(5);
    expect(EVENTS).toHaveLength(8);
    await connection.close();
  });
});
