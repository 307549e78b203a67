import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import { Button, ToggleButton } from 'react-aria-components';
import { newId, type LayoutRecord, type RunThrough, type Skater } from '../../data/api.ts';
import { keepLater, takeBack, usePending } from '../../data/pending.ts';
import { today } from '../../data/today.ts';
import { useList, useRecord } from '../../data/use.ts';
import { useId } from '../../data/use-id.ts';
import { Asked } from '../../parts/asked.tsx';
import { words } from '../../words/index.ts';
import { clock, day } from '../../words/numbers.ts';

const JUMP_WORDS = ['opened', 'short', 'fell', 'stepped out', 'edge', 'no tail', 'left out'];
const OTHER_WORDS = ['fell', 'lower level', 'position short', 'left out'];

interface Planned {
  readonly no: number;
  readonly code: string;
  readonly start: number | null;
}

/** A layout's elements as planned, from its form. */
export function plannedOf(layout: LayoutRecord): Planned[] {
  const elements = Array.isArray(layout.form.elements) ? (layout.form.elements as Record<string, unknown>[]) : [];
  return elements.map((e, i) => ({
    no: i + 1,
    code: typeof e.code === 'string' ? e.code : '',
    start: typeof e.start === 'number' ? e.start : null,
  }));
}

/** The run-through at the boards: one button for all as planned, exceptions only, in skating order. */
export function Log() {
  const id = useId();
  const skater = useRecord('skaters', id);
  const layouts = useList('layouts', { skaterId: id });
  return (
    <section className="phones">
      <div className="phone here">
        <Asked query={skater}>
          {(who) => (
            <Asked query={layouts}>{(all) => <LogOf skater={who} layouts={all.filter((l) => l.current)} />}</Asked>
          )}
        </Asked>
      </div>
    </section>
  );
}

function LogOf({ skater, layouts }: { skater: Skater; layouts: readonly LayoutRecord[] }) {
  const [segment, setSegment] = useState<string | null>(null);
  const layout = layouts.find((l) => l.segment === segment) ?? layouts.find((l) => l.segment === 'free') ?? layouts[0];
  if (layout === undefined) {
    return (
      <div className="log">
        <Head name={`${skater.name}, run-through`} />
        <p>
          There is no layout yet, so there is nothing to compare with.{' '}
          <Link to="/skaters/$id" params={{ id: skater.id }}>
            Enter her layout
          </Link>{' '}
          and come back.
        </p>
      </div>
    );
  }
  const other = layouts.find((l) => l.segment !== layout.segment);
  return <Sheet key={layout.id} skater={skater} layout={layout} other={other} choose={setSegment} />;
}

function Head({ name }: { name: string }) {
  return (
    <>
      <div className="top">
        <Link to="/">Close</Link>
        <span className="quiet">{day(today())}</span>
      </div>
      <h1>{name}</h1>
    </>
  );
}

const segmentName = (segment: string): string => (segment === 'free' ? 'free skate' : 'short program');

interface SheetProps {
  readonly skater: Skater;
  readonly layout: LayoutRecord;
  readonly other: LayoutRecord | undefined;
  readonly choose: (segment: string) => void;
}

function Sheet({ skater, layout, other, choose }: SheetProps) {
  const [different, setDifferent] = useState<ReadonlyMap<number, string>>(new Map());
  const [open, setOpen] = useState<number | null>(null);
  const [kept, setKept] = useState<RunThrough | null>(null);
  const pending = usePending();
  const planned = plannedOf(layout);
  if (kept !== null) return <Kept skater={skater} run={kept} planned={planned.length} again={() => setKept(null)} />;

  const keep = () => {
    const run: RunThrough = {
      id: newId(),
      skaterId: skater.id,
      layoutId: layout.id,
      segment: layout.segment,
      at: new Date().toISOString(),
      planned: planned.map((p) => p.code),
      exceptions: planned.flatMap((p) => {
        const what = different.get(p.no);
        return what === undefined ? [] : [{ no: p.no, code: p.code, what }];
      }),
      note: null,
    };
    keepLater('runthroughs', run);
    setDifferent(new Map());
    setOpen(null);
    setKept(run);
  };
  const say = (no: number, what: string) => {
    const next = new Map(different);
    if (next.get(no) === what) next.delete(no);
    else next.set(no, what);
    setDifferent(next);
  };
  return (
    <div className="log">
      <Head name={`${skater.name}, ${segmentName(layout.segment)}`} />
      {pending > 0 ? (
        <p className="net" role="status">
          <b>No network.</b> Kept on this device; {pending} {pending === 1 ? 'waits' : 'wait'} to be sent.
        </p>
      ) : (
        <p className="quiet">Press only what was different.</p>
      )}
      {other !== undefined && (
        <p>
          <button type="button" className="linklike" onClick={() => choose(other.segment)}>
            To the {segmentName(other.segment)}
          </button>
        </p>
      )}
      <ol className="els">
        {planned.map((p) => (
          <li key={p.no} className={open === p.no ? 'open' : undefined}>
            <button
              type="button"
              className="el"
              aria-expanded={open === p.no}
              onClick={() => setOpen(open === p.no ? null : p.no)}
            >
              <span className="t n">{p.start === null ? p.no : clock(p.start)}</span>
              <span className="c">{p.code}</span>
              {different.has(p.no) ? <span className="x">{different.get(p.no)}</span> : <span />}
            </button>
            {open === p.no && (
              <div className="what" role="group" aria-label={`What was different, ${p.code}`}>
                {(/Sp|Sq|St/.test(p.code) ? OTHER_WORDS : JUMP_WORDS).map((word) => (
                  <ToggleButton
                    key={word}
                    className="btn"
                    isSelected={different.get(p.no) === word}
                    onChange={() => say(p.no, word)}
                  >
                    {word}
                  </ToggleButton>
                ))}
              </div>
            )}
          </li>
        ))}
      </ol>
      <div className="foot">
        <Button className="btn" isDisabled={different.size === 0} onPress={() => setDifferent(new Map())}>
          Undo
        </Button>
        <Button className="btn main" onPress={keep}>
          {different.size === 0 ? 'All as planned' : `Keep: ${different.size} different`}
        </Button>
      </div>
    </div>
  );
}

interface KeptProps {
  readonly skater: Skater;
  readonly run: RunThrough;
  readonly planned: number;
  readonly again: () => void;
}

function Kept({ skater, run, planned, again }: KeptProps) {
  const [said, setSaid] = useState<string | null>(null);
  const undo = () =>
    takeBack('runthroughs', run.id).then(
      () => setSaid(words.season.takenBack),
      (error: unknown) => setSaid(error instanceof Error ? error.message : String(error)),
    );
  if (said !== null) {
    return (
      <div className="log">
        <Head name={skater.name} />
        <p className="done" role="status">
          {said}
        </p>
        <div className="foot">
          <Link className="btn" to="/">
            Close
          </Link>
          <Button className="btn main" onPress={again}>
            Next run-through
          </Button>
        </div>
      </div>
    );
  }
  return (
    <div className="log">
      <Head name="Kept" />
      <div className="done" role="status">
        <p>
          {skater.name}, {segmentName(run.segment)}: {planned - run.exceptions.length} of {planned} as planned.
        </p>
        {run.exceptions.length > 0 && <p>Different: {run.exceptions.map((e) => `${e.code} ${e.what}`).join(', ')}.</p>}
        <p className="small quiet">Counts what was logged; a low number does not mean rest.</p>
        <p>
          <Button className="btn" onPress={() => void undo()}>
            {words.season.takeBack}
          </Button>
        </p>
      </div>
      <div className="foot">
        <Link className="btn" to="/">
          Close
        </Link>
        <Button className="btn main" onPress={again}>
          Next run-through
        </Button>
      </div>
    </div>
  );
}
