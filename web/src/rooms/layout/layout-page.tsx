import { Link } from '@tanstack/react-router';
import { useCallback, useMemo, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import { pronouns } from '../../../../src/notation/index.ts';
import type { MendStep } from '../../../../src/programs/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { newId, type LayoutRecord, type Skater } from '../../data/api.ts';
import { flushEdits, useAutosave } from '../../data/autosave.ts';
import { layoutForm } from '../../data/history.ts';
import { useRecordOf } from '../../data/record-of.ts';
import { rulesOf } from '../../data/rules.ts';
import { useCalm } from '../../data/use-calm.ts';
import { useId } from '../../data/use-id.ts';
import { useStable } from '../../data/use-stable.ts';
import { usePut, useRecord } from '../../data/use.ts';
import { LayoutStrip } from '../../figures/layout-strip.tsx';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { Marks } from '../../parts/mark.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { words } from '../../words/index.ts';
import { clock, shortDay } from '../../words/numbers.ts';
import { Best } from './best.tsx';
import { bonusIds, brokenIds, headline, verdictsOf } from './checked.ts';
import { Compare } from './compare.tsx';
import { Elements } from './elements.tsx';
import { Live } from './live.tsx';
import { mendedNotes, repertoireOf } from './mend.ts';
import { NextSeason } from './next-season.tsx';
import { formOf, notesOf, sameProgram, spread, withCode, withReliability, type PlanNote } from './notes.ts';
import { Broken, Verdicts } from './verdicts.tsx';
import { Versions } from './versions.tsx';

/** A layout along the music, with the rules beneath their place and what it may bring, live. */
export function LayoutPage() {
  const id = useId();
  const layout = useRecord('layouts', id);
  return <Asked query={layout}>{(l) => <WithSkater key={l.id} layout={l} />}</Asked>;
}

function WithSkater({ layout }: { layout: LayoutRecord }) {
  const skater = useRecord('skaters', layout.skaterId);
  return <Asked query={skater}>{(s) => <LayoutOf layout={layout} skater={s} />}</Asked>;
}

const SECONDS = { short: 160, free: 240 } as const;

function useRulesOf(layout: LayoutRecord, skater: Skater) {
  const { season, segment } = layout;
  const { category, body } = skater;
  return useMemo(
    () => rulesOf({ season, category, segment, body: body ?? undefined }),
    [season, segment, category, body],
  );
}

/** The notes as they are edited: kept a moment after every edit, each edit told at the foot. */
function useNotes(layout: LayoutRecord, seconds: number) {
  const { mutateAsync } = usePut('layouts');
  const [base, setBase] = useState(layout.form);
  const [notes, setNotes] = useState(() => notesOf(layout.form, seconds));
  const [edits, setEdits] = useState(0);
  const sorted = useMemo(() => notes.toSorted((a, b) => a.start - b.start), [notes]);
  const added = useRef(0);
  useAutosave(edits, () => mutateAsync({ ...layout, form: formOf(base, sorted), savedAt: new Date().toISOString() }));
  const edited = (said: string) => {
    setEdits((n) => n + 1);
    didEdit(said);
  };
  /** An edit that is taken back by itself: what was moved before it is kept first. */
  const editedAlone = (said: string) => {
    void flushEdits();
    edited(said);
  };
  const one = useCallback(
    (id: string, change: (note: PlanNote) => PlanNote) =>
      setNotes((all) => all.map((n) => (n.id === id ? change(n) : n))),
    [],
  );
  return {
    base,
    sorted,
    edited,
    editedAlone,
    setNotes,
    one,
    setBase,
    newNoteId: () => `a${(added.current += 1)}`,
  };
}

/** Notes as they rest: while one is dragged, as they were before. */
function useRest(notes: readonly PlanNote[], isDragging: boolean): readonly PlanNote[] {
  const [rest, setRest] = useState(notes);
  if (!isDragging && rest !== notes) setRest(notes);
  return isDragging ? rest : notes;
}

function LayoutOf({ layout, skater }: { layout: LayoutRecord; skater: Skater }) {
  const { rules, why } = useRulesOf(layout, skater);
  const seconds = rules?.content.content(rules.category, rules.segment)?.duration.seconds ?? SECONDS[layout.segment];
  const { base, sorted, edited, editedAlone, setNotes, one, setBase, newNoteId } = useNotes(layout, seconds);
  const [held, setHeld] = useState<string | null>(null);
  const [isDragging, setDragging] = useState(false);
  // While a note is dragged strip, verdicts and range follow at once; the rest of the page waits until it rests.
  const rest = useRest(sorted, isDragging);
  const restForm = useMemo(() => formOf(base, rest), [base, rest]);
  const calm = useCalm(restForm);
  const layoutOf = useCallback(
    (notes: readonly PlanNote[]) => layoutForm(formOf(base, notes), layout, skater),
    [base, layout, skater],
  );
  const whole = useMemo(() => layoutOf(sorted), [layoutOf, sorted]);
  const result = useMemo(() => verdictsOf(whole, rules), [whole, rules]);
  const withPractice = base.runThroughs === true;
  const { forms, runs, layouts, isReady } = useRecordOf(skater, withPractice);
  const versions = useMemo(() => layouts.filter(sameProgram(layout)), [layouts, layout]);
  const repertoire = useMemo(
    () => repertoireOf(layouts, forms.history, skater.notNow),
    [layouts, forms.history, skater.notNow],
  );
  const put = usePut('layouts');
  const keepBest = useStable((codes: readonly string[]) => {
    const version = Math.max(layout.version, ...versions.map((l) => l.version)) + 1;
    const kept = formOf(base, spread(codes, sorted, seconds));
    put.mutate({ ...layout, id: newId(), version, current: false, form: kept, savedAt: new Date().toISOString() });
    didEdit(`Kept as version ${version}, beside the current one.`);
  });
  const onMove = useCallback(
    (id: string, start: number) =>
      // At once, not when there is time: note, verdicts and range are drawn in the frame of the movement.
      flushSync(() => {
        setDragging(true);
        one(id, (n) => ({ ...n, start }));
      }),
    [one],
  );
  const own = useMemo(() => pronouns(skater.category), [skater.category]);
  const mending = useStable(() => ({ layout: whole, repertoire }));
  const onMend = useStable((steps: readonly MendStep[], said: string) => {
    setNotes((all) => mendedNotes(all, steps, seconds, newNoteId));
    editedAlone(words.layout.mended(said));
  });
  const onDone = useStable((id: string) => {
    setDragging(false);
    const note = sorted.find((n) => n.id === id);
    edited(words.layout.moved(note?.code ?? '', clock(note?.start ?? 0)));
  });
  const onCode = useStable((id: string, code: string) => {
    const before = sorted.find((n) => n.id === id)?.code ?? '';
    one(id, (n) => withCode(n, code));
    editedAlone(words.layout.changed(before, code));
  });
  const onRemove = useStable((id: string) => {
    const before = sorted.find((n) => n.id === id)?.code ?? '';
    setNotes((all) => all.filter((n) => n.id !== id));
    editedAlone(words.layout.takenOut(before));
  });
  const onAdd = useStable((code: string) => {
    const start = Math.min(seconds - 5, (sorted.at(-1)?.start ?? 0) + 15);
    setNotes((all) => [...all, { id: newNoteId(), code, start, more: {} }]);
    editedAlone(words.layout.added(code));
  });
  const onPractice = useStable((on: boolean) => {
    setBase((b) => ({ ...b, runThroughs: on }));
    editedAlone(on ? words.layout.practiceOn : words.layout.practiceOff);
  });
  const onReliability = useStable((id: string, reliability: number | null, said: string) => {
    one(id, (n) => withReliability(n, reliability));
    edited(said);
  });
  const segment = words.layout[layout.segment];
  return (
    <>
      <Row about="Layout" aside={skater.category} notes={<LayoutNotes rules={rules} why={why} />}>
        <h1>
          {skater.name}’s {segment}, version {layout.version}
        </h1>
        <p className="meta">
          {skater.category}, {clock(seconds)}, season {layout.season} · edited {shortDay(layout.savedAt.slice(0, 10))}
        </p>
        <p className="lead">{headline(result)}</p>
        <Versions layout={layout} form={restForm} versions={versions} />
      </Row>
      <Row about="Along the music" aside="Rules speak beneath the place they concern." wide>
        <figure className="fig">
          <LayoutStrip
            notes={sorted}
            seconds={seconds}
            bonus={bonusIds(rules, sorted, seconds)}
            broken={brokenIds(result.check, sorted)}
            onHold={setHeld}
            onMove={onMove}
            onDone={onDone}
          />
          {result.check !== null && (
            <Broken
              check={result.check}
              notes={sorted}
              seconds={seconds}
              forms={forms}
              pronouns={own}
              question={mending}
              onMend={onMend}
            />
          )}
          <figcaption>
            Jumps are notes on the line of their turns; a beam joins a combination. Below runs the blade: a hop for a
            jump, coils for a spin, waves for steps. Move a note with the mouse, a finger or the arrow keys (with Shift
            by five seconds).
          </figcaption>
        </figure>
        {result.problem !== null && (
          <p className="problem" role="alert">
            {result.problem}
          </p>
        )}
        <Elements notes={rest} onCode={onCode} onRemove={onRemove} onAdd={onAdd} />
      </Row>
      <Row
        about="The rules"
        notes={
          <>
            <p>Verdicts defer to the federation’s current rules. “Not known” means: check your chart.</p>
            <Marks />
          </>
        }
      >
        {result.check !== null && <Verdicts check={result.check} />}
      </Row>
      {isReady && (
        <Live
          notes={rest}
          shown={sorted}
          held={held}
          rules={rules}
          seconds={seconds}
          layoutOf={layoutOf}
          forms={forms}
          runs={runs}
          withPractice={withPractice}
          onPractice={onPractice}
          onReliability={onReliability}
        />
      )}
      <Row about="Two versions" aside="on one strip" wide>
        <Compare form={calm} layout={layout} skater={skater} seconds={seconds} forms={forms} versions={versions} />
      </Row>
      <Row
        about="Best layout"
        aside="of what you entered"
        notes={<p>Looked for on this machine; it can be stopped, and what was found by then stays.</p>}
      >
        <Best form={calm} layout={layout} skater={skater} forms={forms} others={versions} onKeep={keepBest} />
      </Row>
      <Row about="Next season" aside="the same layout">
        <NextSeason form={calm} layout={layout} skater={skater} />
      </Row>
      <Row about="Plan B" aside="a card for the pocket">
        <Link className="btn" to="/planb/$id" params={{ id: skater.id }}>
          Open the card
        </Link>
      </Row>
    </>
  );
}

function LayoutNotes({ rules, why }: { rules: ChosenRules | null; why: string }) {
  return (
    <>
      {why !== '' && <p className="problem">{why}</p>}
      {rules !== null && <p>Read with {rules.content.title}.</p>}
      {rules?.warnings.map((w) => (
        <p key={w} className="quiet">
          {w}
        </p>
      ))}
      <p className="quiet">{words.layout.caution}</p>
    </>
  );
}
