import { useState } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { useForecast } from '../../data/forecast.ts';
import { useList } from '../../data/use.ts';
import { RangeStrip, Tally } from '../../figures/range-strip.tsx';
import { days, tenths } from '../../words/numbers.ts';

interface BringsProps {
  readonly form: Record<string, unknown>;
  readonly layout: LayoutRecord;
  readonly skater: Skater;
}

/** The range instead of a sum: usual days, the target as a notch, chances in days of twenty. */
export function Brings({ form, layout, skater }: BringsProps) {
  const [target, setTarget] = useState('');
  const protocols = useList('protocols', { skaterId: skater.id }).data ?? [];
  const wanted = Number(target.replace(',', '.'));
  const aim = target !== '' && Number.isFinite(wanted) ? wanted : null;
  const answer = useForecast({
    layout: { ...form, season: layout.season, category: skater.category, segment: layout.segment },
    history: protocols.map((p) => ({
      ...p.form,
      season: p.season,
      category: p.category,
      segment: p.segment,
      ...(p.date === null ? {} : { date: p.date }),
    })),
    target: aim,
    body: skater.body,
  });
  if (answer === null) return <p className="quiet">Computing.</p>;
  if (!answer.ok) return <p className="problem">{answer.why}</p>;
  const q = answer.quantiles;
  const chance = answer.chances?.[0];
  return (
    <>
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
          target={aim === null ? null : { points: aim, purpose: 'segment total' }}
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
      {aim !== null && chance !== undefined && (
        <p className="tie">
          <Tally p={chance.p} label={days(chance.p)} /> {aim} or more {days(chance.p)}{' '}
          <span className="only">coach only</span>
        </p>
      )}
      {aim !== null && answer.chances === null && (
        <p className="quiet">No chance is given before three protocols of this segment.</p>
      )}
      <p className="small quiet">{answer.basis}</p>
      {answer.warnings.map((w) => (
        <p key={w} className="small quiet">
          {w}
        </p>
      ))}
    </>
  );
}
