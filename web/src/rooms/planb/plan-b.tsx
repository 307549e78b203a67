import { Link } from '@tanstack/react-router';
import { useMemo } from 'react';
import { describeProblem } from '../../../../src/notation/index.ts';
import { rescue, type RescueResult } from '../../../../src/programs/index.ts';
import { readLayout } from '../../../../src/scoring/index.ts';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { rulesOf } from '../../data/rules.ts';
import { useId } from '../../data/use-id.ts';
import { useList, useRecord } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { signed } from '../../words/numbers.ts';

/** The card for the pocket: what to do when a jump goes otherwise, large enough to be read at the boards. */
export function PlanB() {
  const id = useId();
  const skater = useRecord('skaters', id);
  const layouts = useList('layouts', { skaterId: id });
  return (
    <Asked query={skater}>
      {(who) => (
        <Asked query={layouts}>
          {(all) => {
            const current = all.filter((l) => l.current);
            return current.length === 0 ? (
              <None skater={who} />
            ) : (
              current.map((l, i) => <Card key={l.id} skater={who} layout={l} first={i === 0} />)
            );
          }}
        </Asked>
      )}
    </Asked>
  );
}

function None({ skater }: { skater: Skater }) {
  return (
    <Row about="Plan B">
      <h1>{skater.name}</h1>
      <p>
        There is no layout yet.{' '}
        <Link to="/skaters/$id/new-layout" params={{ id: skater.id }}>
          Enter her elements
        </Link>
        , then the card is made from them.
      </p>
    </Row>
  );
}

type Made = { readonly ok: true; readonly value: RescueResult } | { readonly ok: false; readonly why: string };

function cardOf(layout: LayoutRecord, skater: Skater): Made {
  const query = { season: layout.season, category: skater.category, segment: layout.segment };
  const { rules, why } = rulesOf({ ...query, body: skater.body ?? undefined });
  if (rules === null) return { ok: false, why };
  const read = readLayout({ ...layout.form, ...query });
  if (!read.ok) return { ok: false, why: describeProblem(read.error) };
  const made = rescue(read.value, rules);
  return made.ok ? made : { ok: false, why: describeProblem(made.error) };
}

interface CardProps {
  readonly skater: Skater;
  readonly layout: LayoutRecord;
  /** The first card of the page carries its title. */
  readonly first: boolean;
}

function Card({ skater, layout, first }: CardProps) {
  const made = useMemo(() => cardOf(layout, skater), [layout, skater]);
  const segment = layout.segment === 'free' ? 'free skate' : 'short program';
  return (
    <>
      <Row
        about="Plan B"
        aside="a card for the pocket"
        notes={<p>The best legal continuation for every jump that may go otherwise, in at most three sentences.</p>}
      >
        {first && (
          <h1 className="noprint" style={{ marginBottom: '1rem' }}>
            {skater.name}’s plan B
          </h1>
        )}
        <div className="card">
          <h3 aria-level={2}>
            {skater.name}, {segment}
          </h3>
          {made.ok ? <Sentences card={made.value} /> : <p className="problem">{made.why}</p>}
        </div>
        <p className="noprint" style={{ marginTop: '1rem' }}>
          <button type="button" className="btn" onClick={() => window.print()}>
            Print the card
          </button>
        </p>
      </Row>
      {made.ok && made.value.cases.some((c) => c.gain > 0) && (
        <Row about="Case by case" aside="for the coach">
          <ul className="sums">
            {made.value.cases
              .filter((c) => c.gain > 0)
              .map((c) => (
                <li key={`${c.no} ${c.kind}`}>
                  <span className="n won">
                    <Why
                      about={`${words.why} ${signed(c.gain)}`}
                      answer={<p>{words.season.whyGain(made.value.rulebook)}</p>}
                    >
                      {signed(c.gain)}
                    </Why>
                  </span>
                  <p>
                    <b>{c.planned}</b> becomes {c.done}:{' '}
                    {c.changes.map((x) => `${x.planned} as ${x.instead}`).join(', ')}
                    {c.voids.length > 0 && `; otherwise ${c.voids.map((v) => v.planned).join(', ')} would bring less`}.
                  </p>
                </li>
              ))}
          </ul>
        </Row>
      )}
    </>
  );
}

function Sentences({ card }: { card: RescueResult }) {
  if (card.card.length === 0) return <p>Whatever happens: go on as planned.</p>;
  return (
    <>
      <ol className="ask">
        {card.card.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ol>
      {card.fragile && (
        <p className="verdict frag noprint" style={{ position: 'static', width: 'auto' }}>
          <b>Fragile</b>
          No simple rule saves everything in this layout; see the cases below.
        </p>
      )}
    </>
  );
}
