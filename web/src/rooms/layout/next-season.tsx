import { memo } from 'react';
import { layoutChanges, seasonAfter } from '../../../../src/programs/index.ts';
import { readLayout } from '../../../../src/scoring/index.ts';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { layoutForm } from '../../data/history.ts';
import { rulesOf } from '../../data/rules.ts';
import { signed } from '../../words/numbers.ts';
import { Mark } from '../../parts/mark.tsx';
import { bare } from './verdicts.tsx';

interface NextProps {
  readonly form: Record<string, unknown>;
  readonly layout: LayoutRecord;
  readonly skater: Skater;
}

/** What the rules of the next season would say of this layout: only what changes, broken first. */
export const NextSeason = memo(function NextSeason({ form, layout, skater }: NextProps) {
  const season = seasonAfter(layout.season);
  const query = { category: skater.category, segment: layout.segment, body: skater.body ?? undefined };
  const now = rulesOf({ ...query, season: layout.season }).rules;
  const then = season.ok
    ? rulesOf({ ...query, season: season.value })
    : { rules: null, why: 'The season is not known.' };
  const read = readLayout(layoutForm(form, layout, skater));
  if (!read.ok || now === null) return null;
  if (then.rules === null) return <p>{then.why}</p>;
  if (then.rules.id === now.id) return <p className="quiet">No rules of a later season are here yet.</p>;
  const made = layoutChanges(read.value, now, then.rules);
  if (!made.ok) return <p className="problem">{made.error.found}</p>;
  const { changes, difference } = made.value;
  const provisional = then.rules.content.provisional;
  return (
    <>
      <p>
        {changes.length === 0
          ? `${then.rules.content.title} asks the same of this layout.`
          : `${then.rules.content.title} speaks otherwise of ${changes.length === 1 ? 'one rule' : `${changes.length} rules`}.`}{' '}
        {difference === null
          ? 'The base values cannot be compared: at least one is not known.'
          : difference === 0
            ? 'Base values stay the same.'
            : `Base values ${signed(difference)}.`}
        {provisional && <span className="mk">p</span>}
      </p>
      <ul className="stack" style={{ listStyle: 'none', padding: 0, marginTop: '.5rem' }}>
        {changes.map(({ rule, after }) => (
          <li key={rule} className={`verdict flow ${after?.status === 'met' ? '' : (after?.status ?? '')}`}>
            {after === null
              ? `No longer asked: ${rule}.`
              : `${after.status === 'unknown' ? 'Not established; as far as known: ' : ''}${bare(after.message)}`}
            {after !== null && <Mark citation={after.citation} />}
          </li>
        ))}
      </ul>
      {then.rules.warnings.map((w) => (
        <p key={w} className="small quiet">
          {w}
        </p>
      ))}
    </>
  );
});
