import { useDeferredValue, useMemo, useState } from 'react';
import { Button, FieldError, Label, TextArea, TextField } from 'react-aria-components';
import { readSteps, stepLevel, type StepLevel } from '../../../../src/levels/index.ts';
import { describeProblem } from '../../../../src/notation/index.ts';
import type { PlanRecord, Skater } from '../../data/api.ts';
import { flushEdits, useAutosave } from '../../data/autosave.ts';
import { rulesOf } from '../../data/rules.ts';
import { useId } from '../../data/use-id.ts';
import { usePut, useRecord } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { Row } from '../../parts/frame.tsx';
import { Marks } from '../../parts/mark.tsx';
import { Tick } from '../../parts/tick.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { words } from '../../words/index.ts';
import { Answer } from './answer.tsx';
import { NO_ESTIMATES, withEstimates, type Estimates } from './estimates.ts';
import { OnTheIce } from './on-the-ice.tsx';
import { PlaceTurns } from './place-turns.tsx';

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

const EXAMPLE = 'LFO rocker, LBO counter, LFO twizzle / RBI bracket, RFO rocker, RBO loop';
const LINES = 3;

/** Rules of the plan, and the line read by them; kept while neither changes. */
function useSequence(plan: PlanRecord, skater: Skater, text: string, estimates: Estimates) {
  const { season, segment } = plan;
  const { category, body } = skater;
  const { rules, why } = useMemo(
    () => rulesOf({ season, category, segment, body: body ?? undefined }),
    [season, category, segment, body],
  );
  const read = useMemo(
    () => readSteps({ kind: 'steps', season, category, segment, moves: text }),
    [season, category, segment, text],
  );
  const moves = useMemo(() => (read.ok ? withEstimates(read.value.moves, estimates) : []), [read, estimates]);
  const result = useMemo(
    () => (rules === null || moves.length === 0 ? null : stepLevel(moves, rules.levels.steps(rules.category))),
    [rules, moves],
  );
  const problem = read.ok || text.trim() === '' ? null : describeProblem(read.error);
  return { rules, why, moves, result, problem };
}

function StepPlan({ plan, skater }: { plan: PlanRecord; skater: Skater }) {
  const put = usePut('plans');
  const [line, setLine] = useState(plan.line);
  const [estimates, setEstimates] = useState<Estimates>({
    ...NO_ESTIMATES,
    ...(plan.form.estimates as Partial<Estimates> | undefined),
  });
  const [edits, setEdits] = useState(0);
  const now = () => new Date().toISOString();
  useAutosave(edits, () => put.mutateAsync({ ...plan, line, form: { ...plan.form, estimates }, savedAt: now() }), 700);
  const text = useDeferredValue(line);
  const { rules, why, moves, result, problem } = useSequence(plan, skater, text, estimates);
  const rewrite = (next: string, said: string) => {
    // What was typed before is kept by itself, so that Undo takes back this step alone.
    void flushEdits();
    setLine(next);
    setEdits((n) => n + 1);
    didEdit(said);
  };
  return (
    <>
      <Row about="Step plan" notes={<Notes result={result} why={why} />}>
        <h1>{plan.title}</h1>
        <p className="meta">
          {skater.name}, {skater.category}, season {plan.season}
        </p>
        <TextField
          value={line}
          onChange={(typed) => {
            setLine(typed);
            setEdits((n) => n + 1);
          }}
          isInvalid={problem !== null}
          maxLength={4000}
          style={{ marginTop: '1rem' }}
        >
          <Label className="lab">{words.steps.line}</Label>
          <TextArea className="field line" rows={LINES} spellCheck="false" placeholder={EXAMPLE} />
          {problem !== null && <FieldError className="problem">{problem}</FieldError>}
        </TextField>
        <fieldset className="tie" style={{ marginTop: '1rem' }}>
          <legend className="lab">{words.steps.estimate}</legend>
          {(['left', 'right', 'body'] as const).map((key) => (
            <Tick
              key={key}
              checked={estimates[key]}
              onChange={(on) => {
                setEstimates({ ...estimates, [key]: on });
                setEdits((n) => n + 1);
              }}
            >
              {words.steps[key]}
            </Tick>
          ))}
        </fieldset>
        <PlaceTurns line={text} moves={moves} rules={rules} onRewrite={rewrite} />
      </Row>
      {result === null || rules === null ? (
        <Row about="The line">
          <p className="quiet">{words.steps.empty}</p>
          {line.trim() === '' && (
            <p className="go">
              <Button className="btn" onPress={() => rewrite(EXAMPLE, words.steps.added('An example'))}>
                {words.steps.example}
              </Button>
            </p>
          )}
        </Row>
      ) : (
        <>
          <Answer moves={moves} result={result} rules={rules} />
          <OnTheIce moves={moves} rules={rules} title={`${skater.name}, ${plan.title}`} />
        </>
      )}
    </>
  );
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
      <Marks />
    </>
  );
}
