import { pointsText, toPoints } from './figure.ts';
import type { Total, Totals } from './totals.ts';
import { doubt, tested, type Verdict } from './verdict.ts';

/** Tests the totals of a sheet against what they are the sums of. */
export function judgeTotals(
  totals: Totals,
  sums: { elements: number | null; components: number | null },
  verdict: Verdict,
): void {
  judgeTotal('tes', totals.tes, sums.elements, 'The scores of the elements add up to', verdict);
  judgeTotal('pcs', totals.pcs, sums.components, 'The factored components add up to', verdict);
  const { tes, pcs, total, deductions } = totals;
  verdict.figures += 1;
  if (total !== null && tes !== null && pcs !== null) {
    const before = tes.value + pcs.value + (totals.bonus ?? 0);
    const due = before + (deductions?.value ?? 0);
    if (!tested(verdict, total.closed)) {
      const why = `${pointsText(tes.value)} + ${pointsText(pcs.value)}${totals.bonus === null ? '' : ` + ${pointsText(totals.bonus)}`} and deductions of ${deductions === null ? 'none printed' : pointsText(deductions.value)} do not make ${pointsText(total.value)}.`;
      doubt(verdict, 'total', toPoints(total.value), [toPoints(due)], why);
      doubt(
        verdict,
        'deductions',
        deductions === null ? null : toPoints(deductions.value),
        total.value - before <= 0 ? [toPoints(total.value - before)] : [],
        why,
      );
      if (!tes.closed) doubt(verdict, 'tes', toPoints(tes.value), [], why);
      if (!pcs.closed) doubt(verdict, 'pcs', toPoints(pcs.value), [], why);
      if (totals.bonus !== null) doubt(verdict, 'bonus', toPoints(totals.bonus), [], why);
    }
  }
  if (total !== null && (tes === null || pcs === null))
    doubt(verdict, 'total', toPoints(total.value), [], 'What it is the sum of was not found.');
  if (total !== null && tes === null) doubtMissing('tes', sums.elements, verdict);
  if (total !== null && pcs === null) doubtMissing('pcs', sums.components, verdict);
  if (total !== null && total.rivals.length > 0) {
    doubt(verdict, 'total', toPoints(total.value), total.rivals.map(toPoints), 'The sheet prints it in two ways.');
  }
  if (deductions !== null && deductions.unexplained.length > 0) {
    const items = deductions.unexplained.map((item) => `${item.reason} ${pointsText(item.points)}`).join(', ');
    doubt(
      verdict,
      'deductions',
      toPoints(deductions.value),
      [],
      `The lines of the deductions (${items}) add up to another figure.`,
    );
  }
}

/** Where the segment score is printed its parts usually are: not to have found one is told. */
function doubtMissing(name: 'tes' | 'pcs', sum: number | null, verdict: Verdict): void {
  const alternatives = sum === null ? [] : [toPoints(sum)];
  doubt(verdict, name, null, alternatives, 'The segment score is printed; this part of it was not found.');
}

function judgeTotal(
  name: 'tes' | 'pcs',
  total: Total | null,
  sum: number | null,
  says: string,
  verdict: Verdict,
): void {
  if (total === null) return;
  verdict.figures++;
  if (sum !== null && !tested(verdict, total.value === sum)) {
    doubt(verdict, name, toPoints(total.value), [toPoints(sum)], `${says} ${pointsText(sum)}.`);
  } else if (sum === null) {
    doubt(verdict, name, toPoints(total.value), [], 'What it is the sum of is not complete on this sheet.');
  }
  if (total.rivals.length > 0)
    doubt(verdict, name, toPoints(total.value), total.rivals.map(toPoints), 'The sheet prints it in two ways.');
}
