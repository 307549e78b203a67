import { useDeferredValue, useState } from 'react';
import { Button, FieldError, Label, TextArea, TextField } from 'react-aria-components';
import { answerPlan, readSpins } from '../../../../src/levels/index.ts';
import { describeProblem } from '../../../../src/notation/index.ts';
import type { PlanRecord, Skater } from '../../data/api.ts';
import { useAutosave } from '../../data/autosave.ts';
import { rulesOf } from '../../data/rules.ts';
import { usePut, useRecord } from '../../data/use.ts';
import { Asked } from '../../parts/asked.tsx';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { Marks } from '../../parts/mark.tsx';
import { didEdit } from '../../parts/undo.tsx';
import { words } from '../../words/index.ts';
import { OneSpin } from './one-spin.tsx';
import { spinDrafts } from './spin-line.ts';

/** A spin plan: all spins of a program in skating order, because features are used up on the way. */
export function SpinPlanPage() {
  const id = useId();
  const plan = useRecord('plans', id);
  return <Asked query={plan}>{(p) => <WithSkater key={p.id} plan={p} />}</Asked>;
}

function WithSkater({ plan }: { plan: PlanRecord }) {
  const skater = useRecord('skaters', plan.skaterId);
  return <Asked query={skater}>{(s) => <SpinPlan plan={plan} skater={s} />}</Asked>;
}

const EXAMPLE =
  'FCSp: L camel CF 8 eight-revolutions\nCCoSp: L camel 3, L sit SF 3 change-of-edge, R sit SS 3, R upright US 3';

function SpinPlan({ plan, skater }: { plan: PlanRecord; skater: Skater }) {
  const [line, setLine] = useState(plan.line);
  const text = useDeferredValue(line);
  const { mutateAsync } = usePut('plans');
  const [edits, setEdits] = useState(0);
  useAutosave(edits, () => mutateAsync({ ...plan, line, savedAt: new Date().toISOString() }), 700);

  const { rules, why } = rulesOf({
    season: plan.season,
    category: skater.category,
    segment: plan.segment,
    body: skater.body ?? undefined,
  });
  const { drafts, problem } = spinDrafts(text);
  const read = readSpins({
    kind: 'spins',
    season: plan.season,
    category: skater.category,
    segment: plan.segment,
    spins: drafts,
  });
  const wrong = drafts.length === 0 ? null : (problem ?? (read.ok ? null : describeProblem(read.error)));
  const answer = rules !== null && read.ok && drafts.length > 0 ? answerPlan(read.value, rules, {}) : null;
  const levels = answer?.kind === 'spins' ? answer.spins : [];
  return (
    <>
      <Row
        about="Spin plan"
        notes={
          <>
            {why !== '' && <p className="problem">{why}</p>}
            <p>
              Two revolutions in a row make a position. Features are used up in skating order, at the first attempt.
            </p>
            <p className="quiet">
              Variations: CF CS CU, SF SS SB, UF US UB UL, NBP. Features: change-of-edge, eight-revolutions,
              difficult-entrance, difficult-exit, change-of-position, change-of-foot-by-jump, jump-same-foot,
              both-directions, increase-of-speed, difficult-flying-entry.
            </p>
            <Marks />
          </>
        }
      >
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
          isInvalid={wrong !== null}
          maxLength={4000}
          style={{ marginTop: '1rem' }}
        >
          <Label className="lab">
            One spin a line, in skating order: code, colon, parts with foot, position, variation, revolutions, features
          </Label>
          <TextArea className="field line" rows={4} spellCheck="false" placeholder={EXAMPLE} />
          {wrong !== null && <FieldError className="problem">{wrong}</FieldError>}
        </TextField>
      </Row>
      {rules !== null && levels.map((level, i) => <OneSpin key={i} no={i + 1} level={level} rules={rules} />)}
      {answer?.kind === 'spins' && answer.advice !== null && (
        <Row about="All spins">
          <p>
            {words.steps.leaveOut(
              answer.advice.leaveOut
                .map(({ spin, index, name }) => `${name} in spin ${spin + 1}, part ${index + 1}`)
                .join(', '),
            )}
          </p>
        </Row>
      )}
      {levels.length === 0 && (
        <Row about="The spins">
          <p className="quiet">{words.steps.spinsEmpty}</p>
          {line.trim() === '' && (
            <p className="go">
              <Button
                className="btn"
                onPress={() => {
                  setLine(EXAMPLE);
                  setEdits((n) => n + 1);
                  didEdit(words.steps.added('An example'));
                }}
              >
                {words.steps.example}
              </Button>
            </p>
          )}
        </Row>
      )}
    </>
  );
}
