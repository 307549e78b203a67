import type { Reading, ReadingFinding } from '../../../../src/reading/index.ts';
import { Row } from '../../parts/frame.tsx';
import { Asks, Why } from '../../parts/why.tsx';
import { points } from '../../words/numbers.ts';
import { placesOf } from './places.ts';
import type { PageProps } from './reading-page.tsx';
import { AwardedAnswer } from './why-total.tsx';

/** One quiet line when the figures agree; what does not agree is told in words, politely. */
export function SheetNotes({ read }: { read: PageProps['read'] }) {
  const { reading } = read;
  const wrong = reading.findings.filter((f) => f.kind === 'calculation' || f.kind === 'method');
  const total = points(reading.awarded.total);
  return (
    <Asks>
      <p>
        <span className={`n fact ${wrong.length === 0 ? 'proved' : ''}`} style={{ fontSize: '1.125rem' }}>
          <Why about={`Why ${total}?`} answer={<AwardedAnswer read={read} />}>
            {total}
          </Why>
        </span>
      </p>
      {wrong.length === 0 ? (
        <p>Recomputed from codes, calls, marks and factors: all {reading.checked} printed figures agree.</p>
      ) : (
        <p>
          <b>{wrong.length === 1 ? 'One figure does' : `${wrong.length} figures do`} not agree.</b> See “Ask today”.
        </p>
      )}
      {reading.spread !== '' && <p className="quiet">{reading.spread}</p>}
      {reading.warnings.map((w) => (
        <p key={w} className="quiet">
          {w}
        </p>
      ))}
    </Asks>
  );
}

/** What does not agree or may be a slip of the keyboard, to be asked today. */
export function Slips({ reading }: { reading: Reading }) {
  if (reading.findings.length === 0) return null;
  return (
    <Row
      about="Ask today"
      notes={
        <p>
          Calls, levels and grades stand and cannot be protested. Your event’s announcement and your federation’s
          current rulebook decide who may ask, how, by when and for what fee.
        </p>
      }
    >
      <ul className="stack">
        {reading.findings.map((f) => (
          <li key={`${f.kind}${f.at}`} className="problem">
            <p>
              {f.message}{' '}
              <Why about={`Why ask about ${placesOf([f.at])}?`} answer={<FindingAnswer finding={f} />}>
                Why?
              </Why>
            </p>
          </li>
        ))}
      </ul>
    </Row>
  );
}

const KINDS: Readonly<Record<ReadingFinding['kind'], string>> = {
  calculation:
    'What is expected comes from codes, calls, marks, factors and deductions on the sheet and the season’s values, never from another printed figure. The two figures differ.',
  method: 'It differs by 0.01 and agrees under the other order of averaging, which is not established for this season.',
  slip: 'It looks like a slip of the keyboard. What was keyed in can be corrected; what the panel decided stands.',
  rule: 'It concerns a rule of the program.',
  unreadable: 'It could not be read, so it is not checked.',
  letters: 'These letters cannot stand beside this level.',
};

function FindingAnswer({ finding }: { finding: ReadingFinding }) {
  const shown = (value: unknown) => (typeof value === 'string' ? value : JSON.stringify(value));
  return (
    <>
      <p>{KINDS[finding.kind]}</p>
      {finding.published != null && finding.expected != null && (
        <p>
          Printed: {shown(finding.published)}. Expected: {shown(finding.expected)}.
        </p>
      )}
      {finding.follows !== undefined && (
        <p>It rightly adds another figure, {placesOf([finding.follows])}: with that one it closes.</p>
      )}
    </>
  );
}
