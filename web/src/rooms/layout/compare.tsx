import { memo, useEffect, useState } from 'react';
import type { Comparison } from '../../../../src/programs/index.ts';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { layoutForm, type ProgramRecordForms } from '../../data/history.ts';
import { useProgram } from '../../data/use-program.ts';
import { Tally } from '../../figures/range-strip.tsx';
import { words } from '../../words/index.ts';
import { days, exact, tenths } from '../../words/numbers.ts';
import { Why } from '../../parts/why.tsx';
import { DifferenceStrip } from '../../figures/difference-strip.tsx';

interface CompareProps {
  readonly form: Record<string, unknown>;
  readonly layout: LayoutRecord;
  readonly skater: Skater;
  readonly seconds: number;
  readonly forms: ProgramRecordForms;
  /** All versions of this program. */
  readonly versions: readonly LayoutRecord[];
}

/** Two versions on one strip: only the differences are marked, with how often one beats the other. */
export const Compare = memo(function Compare({ form, layout, skater, seconds, forms, versions: all }: CompareProps) {
  const versions = all.filter((l) => l.id !== layout.id);
  const [otherId, setOtherId] = useState('');
  const other = versions.find((l) => l.id === otherId) ?? versions.at(-1);
  const { asking, ask } = useProgram(forms);
  const asked =
    other === undefined
      ? ''
      : JSON.stringify({
          kind: 'compare',
          a: layoutForm(form, layout, skater),
          b: layoutForm(other.form, other, skater),
        });
  useEffect(() => {
    if (asked !== '') ask(JSON.parse(asked) as Parameters<typeof ask>[0]);
    // Asked again when a layout changes; `ask` itself is made anew on every drawing.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [asked]);
  if (other === undefined) {
    return (
      <p className="quiet">
        There is one version. “Keep as a new version” keeps this one beside a changed one; then both stand here.
      </p>
    );
  }
  return (
    <>
      {versions.length > 1 && (
        <label style={{ display: 'block', maxWidth: '20rem', marginBottom: '1rem' }}>
          <span className="lab">Compared with</span>
          <select className="field" value={other.id} onChange={(e) => setOtherId(e.target.value)}>
            {versions.map((l) => (
              <option key={l.id} value={l.id}>
                version {l.version}
              </option>
            ))}
          </select>
        </label>
      )}
      <DifferenceStrip
        a={form}
        b={other.form}
        names={[`version ${layout.version}`, `version ${other.version}`]}
        seconds={seconds}
      />
      <div role="status">
        {asking.state === 'working' && <p className="quiet">Comparing the two.</p>}
        {asking.state === 'done' && !asking.answer.ok && <p className="problem">{asking.answer.why}</p>}
        {asking.state === 'done' && asking.answer.ok && asking.answer.value.kind === 'compare' && (
          <Said made={asking.answer.value.comparison} a={layout.version} b={other.version} />
        )}
      </div>
    </>
  );
});

function Said({ made, a, b }: { made: Comparison; a: number; b: number }) {
  if (made.differences.length === 0) return <p>The two bring the same: no element or place differs.</p>;
  const higher = made.difference >= 0 ? a : b;
  const gap = tenths(Math.abs(made.difference));
  const answer = <WhyDifference made={made} a={a} b={b} />;
  return (
    <>
      <p className="say">
        {made.insideNoise ? `No real difference: version ${higher} is ` : `Version ${higher} is `}
        <Why about={`${words.why} ${gap}`} answer={answer}>
          {gap}
        </Why>{' '}
        higher on average{made.insideNoise ? ', inside the noise of one program' : ''}.
      </p>
      <p className="tie">
        <Tally p={made.aBeatsB} label={days(made.aBeatsB)} />
        <span>
          Version {a} is ahead of version {b}{' '}
          <Why about={`${words.why} ${days(made.aBeatsB)}`} answer={answer}>
            {days(made.aBeatsB)}
          </Why>
          , if what both have goes alike. <span className="only">{words.coachOnly}</span>
        </span>
      </p>
    </>
  );
}

function WhyDifference({ made, a, b }: { made: Comparison; a: number; b: number }) {
  return (
    <>
      <p>
        Whatever both versions have in the same place goes alike on that day; the rest is drawn for itself, by its
        outcomes and their chances, and all combinations are added up.
      </p>
      <ul className="sums">
        {made.differences.map((d) => (
          <li key={`${d.side}${d.no}`}>
            <span className="n">{tenths(d.mean)}</span>
            <p>
              <b>{d.code}</b>, in version {d.side === 'a' ? a : b}, on average; mostly within {tenths(d.sd)}
            </p>
          </li>
        ))}
      </ul>
      <p>
        Version {a} usually falls between {tenths(made.a.low)} and {tenths(made.a.high)}, version {b} between{' '}
        {tenths(made.b.low)} and {tenths(made.b.high)}; a day outside is normal. On two separate days version {a} is
        ahead {days(made.separateDays)}. Computed without rounding error from uncertain estimates; exact value of the
        model <span className="n">{exact(made.aBeatsB)}</span>.
      </p>
      {made.warnings.map((w) => (
        <p key={w} className="small quiet">
          {w}
        </p>
      ))}
    </>
  );
}
