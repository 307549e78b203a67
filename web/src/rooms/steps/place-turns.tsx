import { useState } from 'react';
import { Button, Input, Label, TextField } from 'react-aria-components';
import {
  editWords,
  formatSteps,
  improveSteps,
  parseSteps,
  type Improved,
  type Move,
  type WrittenMove,
} from '../../../../src/levels/index.ts';
import { describeProblem } from '../../../../src/notation/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { words } from '../../words/index.ts';
import { nameOf } from './names.ts';

interface PlaceProps {
  readonly line: string;
  /** The line with the coach's estimates. */
  readonly moves: readonly Move[];
  readonly rules: ChosenRules | null;
  /** Writes another line, and tells what was done. */
  readonly onRewrite: (line: string, said: string) => void;
}

/** The turns of the line one under the other: moved, taken out, added and given a chance by buttons, without typing. */
export function PlaceTurns({ line, moves, rules, onRewrite }: PlaceProps) {
  const read = parseSteps(line);
  const turns = read.ok ? read.value : [];
  const write = (next: readonly WrittenMove[], said: string) => onRewrite(formatSteps(next), said);
  return (
    <details className="drawer noprint">
      <summary>{words.steps.place}</summary>
      <p className="small quiet">{words.steps.placeNote}</p>
      <ol className="turns">
        {turns.map((turn, i) => (
          <Turn
            // Two turns may be the same: the place tells them apart.
            key={i}
            turn={turn}
            isFirst={i === 0}
            isLast={i === turns.length - 1}
            onMove={(by) => write(exchanged(turns, i, i + by), words.steps.moved(nameOf(turn)))}
            onRemove={() =>
              write(
                turns.filter((_, k) => k !== i),
                words.steps.takenOut(nameOf(turn)),
              )
            }
            onCredit={(credit) =>
              write(
                turns.map((t, k) => (k === i ? { ...t, credit } : t)),
                words.steps.creditSet(nameOf(turn), words.steps.ofTen(Math.round(credit * 10))),
              )
            }
          />
        ))}
      </ol>
      <AddTurn turns={turns} onAdd={(added, said) => write([...turns, ...added], said)} />
      {rules !== null && turns.length > 0 && (
        <Helps
          key={line}
          moves={moves}
          rules={rules}
          onChange={(way) => write(edited(turns, way), words.steps.changedTo(way.edits.map(editWords).join(', ')))}
        />
      )}
    </details>
  );
}

function exchanged(turns: readonly WrittenMove[], a: number, b: number): WrittenMove[] {
  const next = [...turns];
  const [x, y] = [turns[a], turns[b]];
  if (x === undefined || y === undefined) return next;
  // A written step or change of edge belongs to the place, not to the turn.
  next[a] = { ...y, change: x.change };
  next[b] = { ...x, change: y.change };
  return next;
}

/** The written line with a change that was found on it; shares that were not written stay unwritten. */
function edited(turns: readonly WrittenMove[], { edits }: Improved): WrittenMove[] {
  return edits.reduce<WrittenMove[]>(
    (all, { kind, at, turn, edge, direction }) => {
      const before = all[at];
      const fresh: WrittenMove = {
        turn,
        edge,
        direction,
        share: null,
        body: false,
        rotation: null,
        credit: 1,
        change: null,
      };
      if (kind === 'add') return [...all.slice(0, at), fresh, ...all.slice(at)];
      return before === undefined ? all : all.map((t, i) => (i === at ? { ...before, turn, edge, direction } : t));
    },
    [...turns],
  );
}

interface TurnProps {
  readonly turn: WrittenMove;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly onMove: (by: 1 | -1) => void;
  readonly onRemove: () => void;
  readonly onCredit: (credit: number) => void;
}

const TENTHS = [10, 9, 8, 7, 6, 5, 4, 3, 2, 1] as const;

function Turn({ turn, isFirst, isLast, onMove, onRemove, onCredit }: TurnProps) {
  const name = nameOf(turn);
  return (
    <li>
      <span className="code">
        {turn.change === null ? '' : turn.change === 'foot' ? '/ ' : '~ '}
        {name}
      </span>
      <select
        className="field"
        aria-label={words.steps.credited(name)}
        value={Math.round(turn.credit * 10)}
        onChange={(e) => onCredit(Number(e.target.value) / 10)}
      >
        {TENTHS.map((n) => (
          <option key={n} value={n}>
            {words.steps.ofTen(n)}
          </option>
        ))}
      </select>
      <span className="tie">
        <Button
          className="btn"
          isDisabled={isFirst}
          aria-label={`${words.steps.earlier}: ${name}`}
          onPress={() => onMove(-1)}
        >
          {words.steps.earlier}
        </Button>
        <Button
          className="btn"
          isDisabled={isLast}
          aria-label={`${words.steps.later}: ${name}`}
          onPress={() => onMove(1)}
        >
          {words.steps.later}
        </Button>
        <Button className="btn" aria-label={`${words.steps.takeOut}: ${name}`} onPress={onRemove}>
          {words.steps.takeOut}
        </Button>
      </span>
    </li>
  );
}

interface AddProps {
  readonly turns: readonly WrittenMove[];
  readonly onAdd: (added: readonly WrittenMove[], said: string) => void;
}

/** One more turn at the end, typed: what is read is told before it is added. */
function AddTurn({ turns, onAdd }: AddProps) {
  const [text, setText] = useState('');
  // Read behind the line, so that an edge which the last turn leads to may be left out.
  const read = parseSteps(`${formatSteps(turns)}${turns.length === 0 ? '' : ', '}${text}`);
  const added = read.ok ? read.value.slice(turns.length) : [];
  return (
    <form
      className="pair"
      style={{ marginTop: '1rem' }}
      onSubmit={(event) => {
        event.preventDefault();
        if (added.length === 0) return;
        onAdd(added, words.steps.added(added.map(nameOf).join(', ')));
        setText('');
      }}
    >
      <TextField value={text} onChange={setText} maxLength={60}>
        <Label className="lab">{words.steps.addTurnLabel}</Label>
        <Input className="field" placeholder="LBI bracket" spellCheck="false" />
      </TextField>
      <Button type="submit" className="btn main" isDisabled={added.length === 0}>
        {words.steps.add}
      </Button>
      {!read.ok && text.trim() !== '' && <p className="problem small">{describeProblem(read.error)}</p>}
    </form>
  );
}

interface HelpsProps {
  readonly moves: readonly Move[];
  readonly rules: ChosenRules;
  readonly onChange: (way: Improved) => void;
}

/** Ways that are shown. */
const WAYS = 3;

/** On request, the best changes of one turn: the level and the spare that each leads to. */
function Helps({ moves, rules, onChange }: HelpsProps) {
  const [found, setFound] = useState<readonly Improved[] | null>(null);
  const look = () => {
    const worth = (level: Improved['level']) =>
      level === 'none' ? 0 : (rules.values.row(`StSq${level}`)?.base ?? null);
    const made = improveSteps(moves, rules.levels.steps(rules.category), worth, { maxEdits: 1 }, { top: WAYS });
    setFound(made.found.filter((way) => way.edits.length > 0));
  };
  return (
    <div style={{ marginTop: '1rem' }}>
      <Button className="btn" onPress={look}>
        {words.steps.helps}
      </Button>
      <div role="status">{found?.length === 0 && <p>{words.steps.noneHelps}</p>}</div>
      {found !== null && found.length > 0 && (
        <ul className="ways">
          {found.map((way) => {
            const what = way.edits.map(editWords).join(', ');
            return (
              <li key={what}>
                <p>
                  <b>{what.charAt(0).toUpperCase() + what.slice(1)}</b>;{' '}
                  {words.steps.thenLevel(words.steps.level(`${way.level}`), way.spare)}.
                </p>
                <Button className="btn" aria-label={`${words.steps.doIt}: ${what}`} onPress={() => onChange(way)}>
                  {words.steps.doIt}
                </Button>
              </li>
            );
          })}
        </ul>
      )}
    </div>
  );
}
