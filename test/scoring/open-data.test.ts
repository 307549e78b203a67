import { describe, expect, it } from 'vitest';

import { auditAnswer } from '../../src/scoring/index.ts';
import { openProtocols } from '../support/open-data.ts';
import { auditOf } from './audit-of.ts';

// Source: open data of 11 competitions (see NOTICE); no official figure in it disagrees with another.
describe('the open data of 2016/17 and 2017/18, recomputed', () => {
  const protocols = openProtocols();

  it('holds 624 protocols', () => expect(protocols).toHaveLength(624));

  it('gives every official figure to the hundredth, without a finding', () => {
    const wrong = protocols.flatMap((printed) => {
      const answer = auditAnswer(auditOf(printed));
      const official = {
        elements: printed.elements.map(({ no, base, goe, score }) => ({ no, base, goe, score })),
        components: (printed.components ?? []).map(({ name, score }) => ({ name, score })),
        tes: printed.tes,
        pcs: printed.pcs,
        deductions: printed.deductions,
        total: printed.total,
        findings: [],
      };
      const { elements, components, tes, pcs, deductions, total, findings } = { ...official, ...answer };
      const ours = { elements, components, tes, pcs, deductions, total, findings };
      return JSON.stringify(ours) === JSON.stringify(official) ? [] : [{ id: printed.id, ours, official }];
    });
    expect(wrong).toEqual([]);
  });

  it('needs no printed figure for it', () => {
    const wrong = protocols.filter((printed) => {
      const bare = {
        ...printed,
        elements: printed.elements.map(({ no, code, info, half, marks }) => ({ no, code, info, half, marks })),
        components: (printed.components ?? []).map(({ name, factor, marks }) => ({ name, factor, marks })),
        tes: null,
        pcs: null,
        total: null,
      };
      const { tes, pcs, total } = auditOf(bare);
      return tes !== hundredths(printed.tes) || pcs !== hundredths(printed.pcs) || total !== hundredths(printed.total);
    });
    expect(wrong.map((printed) => printed.id)).toEqual([]);
  });

  it('knows the factors that the sheets print', () => {
    const wrong = protocols.filter((printed) => {
      const bare = { ...printed, components: (printed.components ?? []).map((one) => ({ ...one, factor: null })) };
      return auditOf(bare).pcs !== hundredths(printed.pcs);
    });
    expect(wrong.map((printed) => printed.id)).toEqual([]);
  });
});

const hundredths = (points: number | null | undefined): number => Math.round((points ?? NaN) * 100);
