import { useDeferredValue, useState } from 'react';
import { FieldError, Label, TextArea, TextField } from 'react-aria-components';
import { readSteps, stepLevel, type Move, type StepLevel } from '../../../../src/levels/index.ts';
import { describeProblem } from '../../../../src/notation/index.ts';
import type { PlanRecord, Skater } from '../../data/api.ts';
import { useAutosave } from '../../data/autosave.ts';
import { rulesOf } from '../../data/rules.ts';
import { usePut, useRecord } from '../../data/use.ts';
import { StepLine } from '../../figures/step-line.tsx';
import { Asked } from '../../parts/asked.tsx';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { LevelChances } from '../../parts/level-chances.tsx';
import { Tick } from '../../parts/tick.tsx';

/** A step plan: the line in her words, under it what it hangs on, live. */
export function StepPlanPage() {
  const id = useId();
  const plan = useRecord('plans', id);
  return <Asked query={plan}>{(p) => <WithSkater key={p.id} plan={p} />}</Asked>;
}

function WithSkater({ plan }: { plan: PlanRecord }) {
  const skater = useRecord('skaters', plan.skaterId);
  return <Asked query={skater}>{(s) => <StepPlan plan={plan} skater={s} />}</Asked>;
}

interface Estimates {
  readonly left: boolean;
  readonly right: boolean;
  readonly body: boolean;
}

const NONE: Estimates = { left: false, right: false, body: false };

function StepPlan({ plan, skater }: { plan: PlanRecord; skater: Skater }) {
  const put = usePut('plans');
  const [line, setLine] = useState(plan.line);
  const [estimates, setEstimates] = useState<Estimates>({
    ...NONE,
    ...(plan.form.estimates as Partial<Estimates> | undefined),
  });
  const text = useDeferredValue(line);
  const [edits, setEdits] = useState(0);
  useAutosave(
    edits,
    () => put.mutateAsync({ ...plan, line, form: { ...plan.form, estimates }, savedAt: new Date().toISOString() }),
    700,
  );
  const edit = <T,>(set: (value: T) => void) => {
    return (value: T) => {
      set(value);
      setEdits((n) => n + 1);
    };
  };

  const { rules, why } = rulesOf({
    season: plan.season,
    category: skater.category,
    segment: plan.segment,
    body: skater.body ?? undefined,
  });
  const read = readSteps({
    kind: 'steps',
    season: plan.season,
    category: skater.category,
    segment: plan.segment,
    moves: text,
  });
  const problem = read.ok || text.trim() === '' ? null : describeProblem(read.error);
  const moves = read.ok ? withEstimates(read.value.moves, estimates) : [];
  const stepRules = rules?.levels.steps(rules.category);
  const result = stepRules !== undefined && moves.length > 0 ? stepLevel(moves, stepRules) : null;
  return (
    <>
      <Row about="Step plan" notes={<Notes result={result} why={why} />}>
        <h1>{plan.title}</h1>
        <p className="meta">
          {skater.name}, {skater.category}, season {plan.season}
        </p>
        <TextField
          value={line}
          onChange={edit(setLine)}
          isInvalid={problem !== null}
          maxLength={4000}
          style={{ marginTop: '1rem' }}
        >
          <Label className="lab">The sequence, in your words</Label>
          <TextArea
            className="field line"
            rows={3}
            spellCheck="false"
            placeholder="LFO rocker, LBO counter, LFO twizzle / RBI bracket, RFO rocker, RBO loop"
          />
          {problem !== null && <FieldError className="problem">{problem}</FieldError>}
        </TextField>
        <fieldset className="tie" style={{ marginTop: '1rem' }}>
          <legend className="lab">Your estimate: over at least a third of the pattern</legend>
          {(
            [
              ['left', 'full rotations to the left'],
              ['right', 'full rotations to the right'],
              ['body', 'body movements'],
            ] as const
          ).map(([key, name]) => (
            <Tick key={key} checked={estimates[key]} onChange={(on) => edit(setEstimates)({ ...estimates, [key]: on })}>
              {name}
            </Tick>
          ))}
        </fieldset>
      </Row>
      {result === null ? (
        <Row about="The line">
          <p className="quiet">
            Type turns with their entry edges: R or L foot, F or B, I or O, then rocker, counter, bracket, loop,
            twizzle, choctaw.
          </p>
        </Row>
      ) : (
        <Answer moves={moves} result={result} />
      )}
    </>
  );
}

/** Where the line itself says nothing of rotation and body, the coach's estimate stands on equal parts of it. */
function withEstimates(moves: readonly Move[], estimates: Estimates): Move[] {
  if (moves.some((m) => m.body || m.rotation !== null)) return [...moves];
  const third = Math.ceil(moves.length / 3);
  return moves.map((m, i) => ({
    ...m,
    body: estimates.body && i < third,
    rotation:
      estimates.left && i < third
        ? ('left' as const)
        : estimates.right && i >= moves.length - third
          ? ('right' as const)
          : null,
  }));
}

function Answer({ moves, result }: { moves: readonly Move[]; result: StepLevel }) {
  const clusters = new Map(result.clusters.attempts.flatMap((c) => c.moves.map((i) => [i, c.foot] as const)));
  const outside = moves.map((m, i) => ({ m, i })).filter(({ i }) => !clusters.has(i));
  const weakest = result.critical.toSorted((a, b) => (moves[a]?.credit ?? 1) - (moves[b]?.credit ?? 1))[0] ?? null;
  return (
    <>
      <Row about="The line" aside="broken where the rule breaks it" wide>
        <ul className="parts">
          {result.clusters.attempts.map((c) => (
            <li key={c.foot}>
              <span className="k">cluster on the {c.foot === 'L' ? 'left' : 'right'}</span>
              <span className="t">{c.moves.map((i) => nameOf(moves[i])).join(' · ')}</span>
            </li>
          ))}
          <li>
            <span className="k">outside the clusters</span>
            <span className="t">{outside.map(({ m }) => nameOf(m)).join(' · ')}</span>
          </li>
        </ul>
        <figure className="fig" style={{ marginTop: '1.25rem' }}>
          <StepLine moves={moves} result={result} weakest={weakest} />
          <figcaption>
            <b>The step line.</b> Whole is forward, dashed is backward; a full dot counts, an open one does not. The
            capsules are the clusters.
          </figcaption>
        </figure>
      </Row>
      <Row about="What it brings">
        <p className="say">
          {result.level === 'none' ? 'No level' : `Level ${result.level}`}, {result.turns.counted} turns counted in{' '}
          {result.turns.directions} kinds of turn and direction.
        </p>
        <p>{spareSentence(result)}</p>
        {result.limitedBy.length > 0 && (
          <p>What holds it there: {result.limitedBy.map((l) => LIMITS[l]).join(', ')}.</p>
        )}
        <LevelChances chances={result.chances} />
        {result.uncounted.length > 0 && (
          <details className="drawer">
            <summary>Why some do not count</summary>
            <ul>
              {result.uncounted.map((u) => (
                <li key={u.index}>
                  {nameOf(moves[u.index])}: {u.reason}
                </li>
              ))}
            </ul>
          </details>
        )}
      </Row>
    </>
  );
}

const nameOf = (move: Move | undefined): string => (move === undefined ? '' : `${move.edge} ${move.turn}`);

const LIMITS: Readonly<Record<StepLevel['limitedBy'][number], string>> = {
  turns: 'the number of turns',
  rotation: 'rotations to both sides',
  body: 'body movements',
  clusters: 'the clusters',
  cap: 'the category’s highest level',
};

function spareSentence(result: StepLevel): string {
  if (result.spare === null) return 'No loss outside the clusters lowers it.';
  if (result.spare === 0)
    return 'Nothing to spare: one turn that is not credited lowers the level. Plan one or two more.';
  return `${result.spare} ${result.spare === 1 ? 'turn' : 'turns'} outside the clusters may be lost before the level drops.`;
}

function Notes({ result, why }: { result: StepLevel | null; why: string }) {
  return (
    <>
      {why !== '' && <p className="problem">{why}</p>}
      {result?.notes.map((n) => (
        <p key={n.index}>{n.note}</p>
      ))}
      {result !== null && result.notes.length === 0 && <p>All edges join.</p>}
      {result?.clusters.reason != null && <p>{result.clusters.reason}</p>}
      {result?.warnings.map((w) => (
        <p key={w} className="quiet">
          {w}
        </p>
      ))}
      <p className="quiet">A chance stands behind its turn as @0.9; without, every turn is taken as credited.</p>
    </>
  );
}
