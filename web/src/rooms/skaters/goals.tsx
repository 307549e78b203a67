import { useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import { GOAL_KINDS } from '../../../../src/store/kinds.ts';
import { newId, type Goal, type ProtocolRecord, type Skater } from '../../data/api.ts';
import { today } from '../../data/today.ts';
import { useList, usePut } from '../../data/use.ts';
import { didEdit } from '../../parts/undo.tsx';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';
import { points, shortDay, typed } from '../../words/numbers.ts';

const KIND_WORDS: Readonly<Record<Goal['kind'], string>> = {
  habit: 'effort and habit',
  quality: 'quality',
  level: 'level',
  content: 'content',
  score: 'score or place (not in our hands)',
};

/** Goals in their order: effort and habit first; a goal that was not reached is moved, with a reason. */
export function Goals({ skater, protocols }: { skater: Skater; protocols: readonly ProtocolRecord[] }) {
  const goals = useList('goals', { skaterId: skater.id }).data ?? [];
  const order = (g: Goal) => GOAL_KINDS.indexOf(g.kind);
  return (
    <>
      {goals.length === 0 && (
        <p className="quiet">No goal yet. One habit is a good start: “three full run-throughs a week”.</p>
      )}
      <ul className="train">
        {goals
          .toSorted((a, b) => order(a) - order(b))
          .map((goal) => (
            <GoalRow key={goal.id} goal={goal} protocols={protocols} />
          ))}
      </ul>
      <NewGoal skater={skater} />
    </>
  );
}

function GoalRow({ goal, protocols }: { goal: Goal; protocols: readonly ProtocolRecord[] }) {
  const put = usePut('goals');
  const [reason, setReason] = useState<string | null>(null);
  const met = goal.target !== null && reached(goal, protocols);
  const set = (state: Goal['state'], movedBecause: string | null = null) => {
    put.mutate({ ...goal, state, movedBecause });
    didEdit(state === 'met' ? 'Goal met.' : state === 'moved' ? 'Goal moved.' : 'Goal open again.');
  };
  return (
    <li>
      <span className="n">
        {goal.target !== null && (
          <Why about={`${words.why} ${points(goal.target)}`} answer={<p>{words.season.whyTarget}</p>}>
            {points(goal.target)}
          </Why>
        )}
      </span>
      <div>
        <p className="say">{goal.text}</p>
        <p className="quiet">
          {KIND_WORDS[goal.kind]}
          {goal.due === null ? '' : ` · by ${shortDay(goal.due)}`} · {goal.state === 'open' ? 'on the way' : goal.state}
          {goal.movedBecause === null ? '' : `: ${goal.movedBecause}`}
        </p>
        {goal.state === 'open' && met && <p>A sheet shows it: the target was reached.</p>}
        {goal.state === 'open' && reason !== null && (
          <form
            className="pair"
            onSubmit={(event) => {
              event.preventDefault();
              if (reason.trim() === '') return;
              set('moved', reason.trim());
              setReason(null);
            }}
          >
            <TextField value={reason} onChange={setReason} maxLength={200} autoFocus style={{ flex: '1 1 14rem' }}>
              <Label className="lab">Why it is moved</Label>
              <Input className="field" />
            </TextField>
            <Button type="submit" className="btn main" isDisabled={reason.trim() === ''}>
              Move it
            </Button>
            <Button className="btn" onPress={() => setReason(null)}>
              Leave it
            </Button>
          </form>
        )}
      </div>
      <span className="tie">
        {goal.state === 'open' ? (
          <>
            <Button className="btn" aria-label={`Met: ${goal.text}`} onPress={() => set('met')}>
              Met
            </Button>
            <Button className="btn" aria-label={`Move: ${goal.text}`} onPress={() => setReason('')}>
              Move
            </Button>
          </>
        ) : (
          <Button className="btn" onPress={() => set('open')}>
            Open again
          </Button>
        )}
      </span>
    </li>
  );
}

/** Whether a sheet since the goal was set shows the target reached. */
function reached(goal: Goal, protocols: readonly ProtocolRecord[]): boolean {
  const value = (p: ProtocolRecord) => (goal.on === 'tes' ? p.tes : goal.on === 'pcs' ? p.pcs : p.total);
  return protocols.some((p) => !p.practice && (value(p) ?? -1) >= (goal.target ?? Infinity));
}

function NewGoal({ skater }: { skater: Skater }) {
  const put = usePut('goals');
  const [text, setText] = useState('');
  const [kind, setKind] = useState<Goal['kind']>('habit');
  const [due, setDue] = useState('');
  const [target, setTarget] = useState('');
  const parsed = typed(target);
  const add = () => {
    const goal: Goal = {
      id: newId(),
      skaterId: skater.id,
      kind,
      text: text.trim(),
      due: due === '' ? null : due,
      target: kind === 'score' && parsed !== null ? Math.round(parsed * 100) : null,
      on: kind === 'score' ? 'total' : null,
      state: 'open',
      movedBecause: null,
    };
    put.mutate(goal, { onSuccess: () => didEdit(`Goal added: ${goal.text}`) });
    setText('');
    setTarget('');
  };
  return (
    <form
      className="stack"
      style={{ maxWidth: '30rem', marginTop: '1.5rem' }}
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() !== '') add();
      }}
    >
      <TextField value={text} onChange={setText} maxLength={200}>
        <Label className="lab">A new goal, in her words</Label>
        <Input className="field" />
      </TextField>
      <label>
        <span className="lab">Kind</span>
        <select className="field" value={kind} onChange={(e) => setKind(e.target.value as Goal['kind'])}>
          {GOAL_KINDS.map((k) => (
            <option key={k} value={k}>
              {KIND_WORDS[k]}
            </option>
          ))}
        </select>
      </label>
      {kind === 'score' && (
        <TextField value={target} onChange={setTarget} inputMode="decimal">
          <Label className="lab">Points, segment total</Label>
          <Input className="field" />
        </TextField>
      )}
      <label>
        <span className="lab">By</span>
        <input className="field" type="date" min={today()} value={due} onChange={(e) => setDue(e.target.value)} />
      </label>
      <Button type="submit" className="btn main" isDisabled={text.trim() === ''}>
        Add the goal
      </Button>
    </form>
  );
}
