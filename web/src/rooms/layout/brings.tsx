import { useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { useForecast } from '../../data/forecast.ts';
import type { ForecastAnswer } from '../../data/forecast.worker.ts';
import { historyForms, layoutForm } from '../../data/history.ts';
import { useList } from '../../data/use.ts';
import { RangeStrip, Tally } from '../../figures/range-strip.tsx';
import { days, tenths } from '../../words/numbers.ts';

interface BringsProps {
  readonly form: Record<string, unknown>;
  readonly layout: LayoutRecord;
  readonly skater: Skater;
}

type Known = Extract<ForecastAnswer, { ok: true }>;

/** The range instead of a sum: usual days, the target as a notch, chances in days of twenty. */
export function Brings({ form, layout, skater }: BringsProps) {
  const [target, setTarget] = useState('');
  const protocols = useList('protocols', { skaterId: skater.id }).data ?? [];
  const wanted = Number(target.replace(',', '.'));
  const aim = target !== '' && Number.isFinite(wanted) ? wanted : null;
  const answer = useForecast({
    layout: layoutForm(form, layout, skater),
    history: historyForms(protocols),
    target: aim,
    body: skater.body,
  });
  if (answer === null) return <p className="quiet">Computing the range from her sheets and this layout.</p>;
  if (!answer.ok) return <p className="problem">{answer.why}</p>;
  const q = answer.quantiles;
  const purpose = answer.on === 'total' ? 'segment total' : 'elements alone';
  return (
    <>
      {answer.on === 'tes' && (
        <p>
          <b>Elements alone.</b> The factors of the components are not known for this category: a sheet that prints them
          gives the total.
        </p>
      )}
      <figure className="fig">
        <RangeStrip
          range={{
            q025: q['0.025'],
            q10: q['0.1'],
            q25: q['0.25'],
            q50: q['0.5'],
            q75: q['0.75'],
            q90: q['0.9'],
            q975: q['0.975'],
          }}
          target={aim === null ? null : { points: aim, purpose }}
        />
      </figure>
      <p>
        Usually between <b>{tenths(q['0.1'])}</b> and <b>{tenths(q['0.9'])}</b>; half of all days between{' '}
        {tenths(q['0.25'])} and {tenths(q['0.75'])}, the middle at {tenths(q['0.5'])}. A day outside is normal.
      </p>
      <TextField
        value={target}
        onChange={setTarget}
        inputMode="decimal"
        style={{ maxWidth: '12rem', marginTop: '.75rem' }}
      >
        <Label className="lab">A target, in points</Label>
        <Input className="field" />
      </TextField>
      <Chance answer={answer} aim={aim} />
      <p className="small quiet">{answer.basis}</p>
      <WhyRange answer={answer} codes={codesOf(form)} />
    </>
  );
}

function Chance({ answer, aim }: { answer: Known; aim: number | null }) {
  const chance = answer.chances?.[0];
  if (aim === null) return null;
  if (answer.chances === null)
    return <p className="quiet">No chance is given before three protocols of this segment.</p>;
  if (chance === undefined) return null;
  return (
    <p className="tie">
      <Tally p={chance.p} label={days(chance.p)} /> {aim} or more {days(chance.p)}{' '}
      <span className="only">coach only</span>
    </p>
  );
}

/** Where the range comes from: what each element brings on average, the rules, and what is assumed. */
function WhyRange({ answer, codes }: { answer: Known; codes: readonly string[] }) {
  return (
    <details className="drawer">
      <summary>Why this range?</summary>
      <p>
        Every element has its outcomes with their chances; all programs that can come of them are called under the rules
        and their scores added without rounding error. The components move together by one draw of the day.
      </p>
      <ul className="sums">
        {answer.byElement.map((e) => (
          <li key={e.no}>
            <span className="n">{tenths(e.mean)}</span>
            <p>
              <b>{codes[e.no - 1] ?? `element ${e.no}`}</b> on average, mostly within {tenths(e.sd)}
            </p>
          </li>
        ))}
      </ul>
      {answer.chances?.map((c) => (
        <p key={c.target}>
          {c.target} or more: exact value of the model <span className="n">{c.p.toFixed(3)}</span>
        </p>
      ))}
      <p className="quiet">Rules: {answer.rulebook}.</p>
      {answer.warnings.map((w) => (
        <p key={w} className="small quiet">
          {w}
        </p>
      ))}
    </details>
  );
}

const codesOf = (form: Record<string, unknown>): string[] =>
  Array.isArray(form.elements) ? (form.elements as { code?: unknown }[]).map((e) => String(e.code)) : [];
