import type { Pronouns } from '../../../../src/notation/index.ts';
import type { Advice } from '../../../../src/reading/index.ts';
import type { ProtocolRecord } from '../../data/api.ts';
import { usePut } from '../../data/use.ts';
import { Tick } from '../../parts/tick.tsx';
import { Why } from '../../parts/why.tsx';
import { points, signed } from '../../words/numbers.ts';
import { placesOf } from './places.ts';
import type { PageProps } from './reading-page.tsx';
import { Rule } from './why-entry.tsx';

/** Names one piece of advice for the record: element and cause. */
export const adviceKey = (a: Advice): string => `${a.no ?? 'all'}-${a.cause}`;

interface TrainProps {
  readonly record: ProtocolRecord;
  readonly read: PageProps['read'];
  readonly who: Pronouns;
}

/**
 * What to train, by what repairing it alone would bring; at most two of it go on the skater's page.
 * What holds for every jump is said once, beneath the list.
 */
export function Train({ record, read, who }: TrainProps) {
  const put = usePut('protocols');
  const { advice } = read.reading;
  const set = (key: string, chosen: boolean) => {
    const onHerPage = chosen ? [...record.onHerPage, key].slice(-2) : record.onHerPage.filter((k) => k !== key);
    put.mutate({ ...record, onHerPage });
  };
  if (advice.length === 0) return <p>Nothing is missing against the reference.</p>;
  const beside = [...new Set(advice.flatMap((a) => a.beside))];
  return (
    <>
      <ul className="train">
        {advice.map((a) => {
          const key = adviceKey(a);
          const chosen = record.onHerPage.includes(key);
          return (
            <li key={key}>
              <span className="n">
                <Why about={`Why ${signed(a.points)}?`} answer={<WinBack advice={a} read={read} />}>
                  {signed(a.points)}
                </Why>
                {a.atLeast && <span className="small"> or more</span>}
              </span>
              <div>
                <p>{a.text}</p>
                <p className="quiet small">{a.rule}</p>
              </div>
              <Tick checked={chosen} disabled={!chosen && record.onHerPage.length >= 2} onChange={(on) => set(key, on)}>
                on {who.hersOf} page
              </Tick>
            </li>
          );
        })}
      </ul>
      {beside.map((b) => (
        <p className="quiet small" key={b}>
          {b} {isScale(b) && <ScaleAsked read={read} />}
        </p>
      ))}
    </>
  );
}

/** What repairing one cause alone would bring, and where its figures come from. */
function WinBack({ advice, read: { reading } }: { advice: Advice; read: PageProps['read'] }) {
  const entry = reading.ledger.find((e) => e.no === advice.no && e.cause === advice.cause);
  const places = placesOf(entry?.evidence ?? []);
  return (
    <>
      <p>
        {advice.no === null ? 'The program' : `Element ${advice.no}`} with {advice.cause} as in the reference and
        everything else as on the sheet, less the same as it was skated: <b className="n">{signed(advice.points)}</b>
        {advice.atLeast ? ' at least, for a feature may have gone with it.' : '.'}
      </p>
      {entry !== undefined && (
        <p>
          In the account it is {signed(entry.points)}: there the causes share the difference, here this one is repaired
          alone. What repairs bring does not add up.
        </p>
      )}
      <Rule text={advice.rule} citations={advice.sources} />
      {places !== '' && <p className="quiet">On the sheet: {places}.</p>}
    </>
  );
}

const isScale = (sentence: string): boolean => sentence.startsWith('For scale');

/** What the scale beneath the list is made of. */
function ScaleAsked({ read: { audited } }: Pick<TrainProps, 'read'>) {
  const factors = audited.components.flatMap((c) => (c.factor === null ? [] : [points(c.factor)]));
  return (
    <Why
      about="The scale: from what?"
      answer={
        <p>
          A quarter of a mark more in each component, times its factor
          {factors.length > 0 && ` (${factors.join(', ')})`}, added up over the components of this sheet.
        </p>
      }
    >
      From what?
    </Why>
  );
}

export function TrainNotes({ who }: { who: Pronouns }) {
  return (
    <>
      <p>Each number is what repairing that one thing alone would bring. They do not add up.</p>
      <p>At most two are on {who.hersOf} page; to change, take one off first.</p>
    </>
  );
}
