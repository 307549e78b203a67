import type { LedgerEntry } from '../../../../src/reading/index.ts';
import type { Citation } from '../../../../src/rulebook/index.ts';
import { componentPoints, elementValue } from '../../../../src/scoring/index.ts';
import { points, signed } from '../../words/numbers.ts';
import { sum } from './ledger-view.ts';
import type { PageProps } from './reading-page.tsx';
import { Rule } from './why-entry.tsx';

type Read = PageProps['read'];

const minus = (n: number): string => (n < 0 ? `− ${points(-n)}` : `+ ${points(n)}`);
const plus = (numbers: readonly number[]): string => numbers.map((n, i) => (i === 0 ? points(n) : minus(n))).join(' ');

/** Sources of the base values of the elements on the sheet. */
const valueSources = (audited: Read['audited'], { values }: Read['rules']): Citation[] =>
  audited.elements.flatMap(({ element }) => {
    if (element === null) return [];
    const { row, jumps } = elementValue(values, element);
    return [...jumps.map((jump) => jump.row), row].flatMap((one) => (one === null ? [] : [one.citation]));
  });

/** Source of the way in which a panel's marks are averaged. */
function panelSource({ values }: Read['rules']): Citation {
  const panel = (values.document as { values?: { panel?: object } }).values?.panel ?? {};
  const [first] = Object.keys(panel).filter((key) => key !== 'cite');
  return values.citation(first === undefined ? 'values.panel' : `values.panel.${first}`);
}

/** What the awarded total is made of, down to every element and component, recomputed from the sheet. */
export function AwardedAnswer({ read: { reading, audited, rules } }: { read: Read }) {
  const { awarded } = reading;
  const scores = audited.elements.flatMap((e) => (e.score === null ? [] : [e.score]));
  const parts = audited.components.flatMap((c) =>
    c.score === null || c.factor === null ? [] : [{ ...c, score: c.score, factor: c.factor }],
  );
  const sides = [awarded.tes, awarded.pcs, awarded.deductions].flatMap((n) => (n === null ? [] : [n]));
  const rest = awarded.total - sides.reduce((all, n) => all + n, 0);
  return (
    <>
      <p>
        {plus([...sides, ...(rest === 0 ? [] : [rest])])} = <b className="n">{points(awarded.total)}</b>:{' '}
        {[
          awarded.tes === null ? '' : 'elements',
          awarded.pcs === null ? '' : 'components',
          awarded.deductions === null ? '' : 'deductions',
          rest === 0 ? '' : 'bonus',
        ]
          .filter((name) => name !== '')
          .join(', ')}
        .
      </p>
      {awarded.tes !== null && (
        <p>
          Elements, each its base value and its grades: {plus(scores)} = <b className="n">{points(awarded.tes)}</b>.
        </p>
      )}
      {awarded.pcs !== null && parts.length > 0 && (
        <p>
          Components, the panel’s mean times the factor:{' '}
          {parts
            .map((c) => {
              const share = componentPoints(c.score, c.factor) ?? 0;
              return `${c.name} ${points(c.score)} × ${points(c.factor)} = ${points(share)}`;
            })
            .join(', ')}
          ; together <b className="n">{points(awarded.pcs)}</b>.
        </p>
      )}
      <Rule
        text={`Recomputed from codes, calls, marks, factors and deductions on the sheet, by ${rules.values.title}.`}
        citations={[...valueSources(audited, rules), panelSource(rules)]}
      />
    </>
  );
}

const FROM: Readonly<Record<Read['reading']['reference']['kind'], string>> = {
  layout:
    'Every element as planned in the layout, at the planned level and grade; where the layout has none, the usual of earlier programs, else the highest level and grade 0.',
  usual:
    'Every element at the median level and grade of earlier programs; where there is none, at the highest level and grade 0.',
  clean: 'Every element as attempted, calls taken off, at the category’s highest level and grade 0.',
};

/** What the reference total is made of. */
export function ReferenceAnswer({ read: { reading, audited, rules } }: { read: Read }) {
  const { reference } = reading;
  const sides = [reference.tes, reference.pcs, reference.deductions].flatMap((n) => (n === null ? [] : [n]));
  return (
    <>
      <p>
        {plus(sides)} = <b className="n">{points(reference.total)}</b>: elements
        {reference.pcs === null ? '' : ', components'}
        {reference.deductions === null ? '' : ', deductions'}.
      </p>
      <p>{FROM[reference.kind]} Components as in the layout, else as awarded; no deductions.</p>
      <Rule text={`Values by ${rules.values.title}.`} citations={valueSources(audited, rules)} />
    </>
  );
}

/** The difference, and that the account adds up to it. */
export function DifferenceAnswer({ read: { reading } }: { read: Read }) {
  const top = reading.ledger.filter((e) => e.points > 0);
  const missing = reading.ledger.filter((e) => e.points < 0);
  return (
    <>
      <p>
        {points(reading.awarded.total)} − {points(reading.reference.total)} ={' '}
        <b className="n">{signed(reading.difference)}</b>.
      </p>
      <p>
        The account: {signed(sum(top))} on top and {signed(sum(missing))} missing, together{' '}
        {signed(sum(reading.ledger))}. It adds up to the difference to the hundredth.
      </p>
    </>
  );
}

/** A sum of entries, entry by entry. */
export function SumAnswer({
  entries,
}: {
  entries: readonly Pick<LedgerEntry, 'no' | 'element' | 'cause' | 'points'>[];
}) {
  return (
    <p>
      {entries
        .map((e) => `${signed(e.points)} ${e.no === null ? 'whole program' : `${e.no} ${e.element ?? ''}`}, ${e.cause}`)
        .join(' · ')}
      {' = '}
      <b className="n">{signed(sum(entries))}</b>. Each number of it can be asked by itself.
    </p>
  );
}
