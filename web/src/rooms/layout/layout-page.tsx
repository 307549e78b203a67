import { Link } from '@tanstack/react-router';
import { useDeferredValue, useMemo, useRef, useState } from 'react';
import { Button } from 'react-aria-components';
import { describeProblem, parseCode } from '../../../../src/notation/index.ts';
import { checkLayout, type CheckResult } from '../../../../src/programs/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { readLayout } from '../../../../src/scoring/index.ts';
import { newId, type LayoutRecord, type Skater } from '../../data/api.ts';
import { useAutosave } from '../../data/autosave.ts';
import { rulesOf } from '../../data/rules.ts';
import { useList, usePut, useRecord } from '../../data/use.ts';
import { LayoutStrip, type StripNote } from '../../figures/layout-strip.tsx';
import { Asked } from '../../parts/asked.tsx';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { clock, shortDay } from '../../words/numbers.ts';
import { Best } from './best.tsx';
import { Brings } from './brings.tsx';
import { Compare } from './compare.tsx';
import { Elements } from './elements.tsx';
import { NextSeason } from './next-season.tsx';
import { Broken, Verdicts } from './verdicts.tsx';

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

const segmentName = (segment: string): string => (segment === 'free' ? 'free skate' : 'short program');
const SECONDS = { short: 160, free: 240 } as const;

/** Elements of the form as notes; what has no time yet is spread evenly. */
function notesOf(layout: LayoutRecord, seconds: number): StripNote[] {
  const elements = Array.isArray(layout.form.elements) ? (layout.form.elements as Record<string, unknown>[]) : [];
  return elements.map((e, i) => ({
    id: `n${i}`,
    code: typeof e.code === 'string' ? e.code : '',
    start: typeof e.start === 'number' ? e.start : Math.round(((i + 0.5) / elements.length) * seconds),
  }));
}

const formOf = (layout: LayoutRecord, notes: readonly StripNote[]): Record<string, unknown> => {
  const before = Array.isArray(layout.form.elements) ? (layout.form.elements as Record<string, unknown>[]) : [];
  const known = new Map(before.map((e) => [e.code, e]));
  return { ...layout.form, elements: notes.map(({ code, start }) => ({ ...known.get(code), code, start })) };
};

const sameProgram = (one: LayoutRecord) => (other: LayoutRecord) => other.segment === one.segment;

/** Codes in skating order on the times of the old notes; further ones are spread evenly. */
const spread = (codes: readonly string[], notes: readonly StripNote[], seconds: number): StripNote[] =>
  codes.map((code, i) => ({
    id: `k${i}`,
    code,
    start: codes.length === notes.length ? (notes[i]?.start ?? 0) : Math.round(((i + 0.5) / codes.length) * seconds),
  }));

function LayoutOf({ layout, skater }: { layout: LayoutRecord; skater: Skater }) {
  const put = usePut('layouts');
  const { rules, why } = useMemo(
    () =>
      rulesOf({
        season: layout.season,
        category: skater.category,
        segment: layout.segment,
        body: skater.body ?? undefined,
      }),
    [layout.season, layout.segment, skater.category, skater.body],
  );
  const seconds = rules?.content.content(rules.category, rules.segment)?.duration.seconds ?? SECONDS[layout.segment];
  const [notes, setNotes] = useState(() => notesOf(layout, seconds));
  const next = useRef(notes.length);
  const sorted = useMemo(() => notes.toSorted((a, b) => a.start - b.start), [notes]);
  const shown = useDeferredValue(sorted);
  const form = useMemo(() => formOf(layout, shown), [layout, shown]);
  const result = useMemo(() => verdictsOf(form, layout, skater, rules), [form, layout, skater, rules]);

  const { mutate, mutateAsync } = put;
  const [edits, setEdits] = useState(0);
  useAutosave(edits, () => mutateAsync({ ...layout, form: formOf(layout, sorted), savedAt: new Date().toISOString() }));
  const edited = (said: string) => {
    setEdits((n) => n + 1);
    didEdit(said);
  };
  const versions = useList('layouts', { skaterId: layout.skaterId }).data ?? [];
  const keepBest = (codes: readonly string[]) => {
    const version = Math.max(layout.version, ...versions.filter(sameProgram(layout)).map((l) => l.version)) + 1;
    mutate({
      ...layout,
      id: newId(),
      version,
      current: false,
      form: formOf(layout, spread(codes, sorted, seconds)),
      savedAt: new Date().toISOString(),
    });
    didEdit(`Kept as version ${version}, beside the current one.`);
  };
  const broken = brokenIds(result.check, shown);
  return (
    <>
      <Row about="Layout" aside={skater.category} notes={<LayoutNotes rules={rules} why={why} />}>
        <h1>
          {skater.name}’s {segmentName(layout.segment)}, version {layout.version}
        </h1>
        <p className="meta">
          {skater.category}, {clock(seconds)}, season {layout.season} · edited {shortDay(layout.savedAt.slice(0, 10))}
        </p>
        <p className="lead">{headline(result)}</p>
        <Versions layout={layout} notes={sorted} />
      </Row>
      <Row about="Along the music" aside="Rules speak beneath the place they concern." wide>
        <figure className="fig">
          <LayoutStrip
            notes={sorted}
            seconds={seconds}
            bonus={bonusIds(rules, shown, seconds)}
            broken={broken}
            onMove={(id, start) => setNotes((all) => all.map((n) => (n.id === id ? { ...n, start } : n)))}
            onDone={() => edited('Moved.')}
          />
          {result.check !== null && <Broken check={result.check} notes={shown} seconds={seconds} />}
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
        <Elements
          notes={sorted}
          onCode={(id, code) => {
            setNotes((all) => all.map((n) => (n.id === id ? { ...n, code } : n)));
            edited('Changed.');
          }}
          onRemove={(id) => {
            setNotes((all) => all.filter((n) => n.id !== id));
            edited('Taken out.');
          }}
          onAdd={(code) => {
            const start = Math.min(seconds - 5, (sorted.at(-1)?.start ?? 0) + 15);
            setNotes((all) => [...all, { id: `n${(next.current += 1)}`, code, start }]);
            edited(`${code} added.`);
          }}
        />
      </Row>
      <Row
        about="The rules"
        notes={<p>Verdicts defer to the federation’s current rules. “Not known” means: check your chart.</p>}
      >
        {result.check !== null && <Verdicts check={result.check} />}
      </Row>
      <Row
        about="What it may bring"
        aside="points in all"
        notes={
          <p>Computed without rounding error from uncertain estimates. Tenths are estimates; hundredths are facts.</p>
        }
      >
        <Brings form={form} layout={layout} skater={skater} />
      </Row>
      <Row about="Two versions" aside="on one strip" wide>
        <Compare form={form} layout={layout} skater={skater} seconds={seconds} />
      </Row>
      <Row
        about="Best layout"
        aside="of what you entered"
        notes={<p>Looked for on this machine; it can be stopped.</p>}
      >
        <Best form={form} layout={layout} skater={skater} onKeep={keepBest} />
      </Row>
      <Row about="Next season" aside="the same layout">
        <NextSeason form={form} layout={layout} skater={skater} />
      </Row>
      <Row about="Plan B" aside="a card for the pocket">
        <Link className="btn" to="/planb/$id" params={{ id: skater.id }}>
          Open the card
        </Link>
      </Row>
    </>
  );
}

interface Checked {
  readonly check: CheckResult | null;
  readonly problem: string | null;
}

function verdictsOf(
  form: Record<string, unknown>,
  layout: LayoutRecord,
  skater: Skater,
  rules: ChosenRules | null,
): Checked {
  if (rules === null) return { check: null, problem: null };
  const read = readLayout({ ...form, season: layout.season, category: skater.category, segment: layout.segment });
  if (!read.ok) return { check: null, problem: describeProblem(read.error) };
  const check = checkLayout(read.value, rules);
  return check.ok ? { check: check.value, problem: null } : { check: null, problem: describeProblem(check.error) };
}

function headline({ check, problem }: Checked): string {
  if (problem !== null) return 'One code cannot be read yet.';
  if (check === null) return 'No rules could be chosen for this category.';
  const broken = check.verdicts.filter((v) => v.status === 'broken').length;
  const unknown = check.verdicts.filter((v) => v.status === 'unknown').length;
  const start =
    broken === 0 ? 'Nothing is broken.' : broken === 1 ? 'One rule is broken.' : `${broken} rules are broken.`;
  return unknown === 0
    ? start
    : `${start} ${unknown} ${unknown === 1 ? 'rule is' : 'rules are'} not known: check your chart.`;
}

function brokenIds(check: CheckResult | null, notes: readonly StripNote[]): Set<string> {
  const broken = check?.verdicts.filter((v) => v.status === 'broken') ?? [];
  return new Set(broken.flatMap((v) => v.elements.flatMap((no) => notes[no - 1]?.id ?? [])));
}

/** Which notes the second-half factor would fall on: the last ones of the segment that start after the half. */
function bonusIds(rules: ChosenRules | null, notes: readonly StripNote[], seconds: number): Set<string> {
  const last = rules?.content.content(rules.category, rules.segment)?.bonusLast ?? null;
  if (last === null || last === 0) return new Set();
  const jumps = notes.filter((n) => {
    const parsed = parseCode(n.code);
    return parsed.ok && parsed.value.element.kind === 'jump';
  });
  const late = (last === 'all' ? jumps : jumps.slice(-last)).filter((n) => n.start >= seconds / 2);
  return new Set(late.map((n) => n.id));
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
      <p className="quiet">
        Late jumps and added jump attempts: decide with coach, parents and, in pain or growth, medical staff.
      </p>
    </>
  );
}

function Versions({ layout, notes }: { layout: LayoutRecord; notes: readonly StripNote[] }) {
  const put = usePut('layouts');
  const all = (useList('layouts', { skaterId: layout.skaterId }).data ?? []).filter(sameProgram(layout));
  const keep = () => {
    const version = Math.max(...all.map((l) => l.version), layout.version) + 1;
    put.mutate({ ...layout, current: false });
    put.mutate({
      ...layout,
      id: newId(),
      version,
      current: true,
      form: formOf(layout, notes),
      savedAt: new Date().toISOString(),
    });
    didEdit(`Kept as version ${version}.`);
  };
  const others = all.filter((l) => l.id !== layout.id);
  return (
    <p className="go noprint">
      <Button className="btn" onPress={keep}>
        Keep as a new version
      </Button>
      {others.map((l) => (
        <Link key={l.id} to="/layout/$id" params={{ id: l.id }}>
          version {l.version}
          {l.current ? ', current' : ''}
        </Link>
      ))}
    </p>
  );
}
