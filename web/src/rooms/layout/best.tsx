import { useState } from 'react';
import { Button, Label, TextArea, TextField } from 'react-aria-components';
import { describeProblem, parseCode } from '../../../../src/notation/index.ts';
import type { BestLayout, Objective } from '../../../../src/programs/index.ts';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { historyForms, layoutForm } from '../../data/history.ts';
import type { BestAnswer } from '../../data/program.worker.ts';
import { useProgram } from '../../data/use-program.ts';
import { useList } from '../../data/use.ts';
import { days, tenths } from '../../words/numbers.ts';

interface BestProps {
  readonly form: Record<string, unknown>;
  readonly layout: LayoutRecord;
  readonly skater: Skater;
  readonly onKeep: (codes: readonly string[]) => void;
}

type Aim = 'expected' | 'worse-days' | 'target';

const AIMS: Readonly<Record<Aim, string>> = {
  expected: 'the average score',
  'worse-days': 'the worse days (reached on nine of ten)',
  target: 'reaching a target',
};

/** Best of the elements and reliabilities entered, with the safe alternative; never "the right program". */
export function Best({ form, layout, skater, onKeep }: BestProps) {
  const protocols = useList('protocols', { skaterId: skater.id }).data ?? [];
  const others = (useList('layouts', { skaterId: skater.id }).data ?? []).filter((l) => l.segment === layout.segment);
  const { asking, ask, stop } = useProgram({ body: skater.body, history: historyForms(protocols) });
  const [line, setLine] = useState<string | null>(null);
  const [aim, setAim] = useState<Aim>('expected');
  const [target, setTarget] = useState('');
  const text = line ?? offered(form, others, skater).join(' ');
  const codes = text.split(/[\s,;]+/).filter((c) => c !== '');
  const bad = codes.map((c) => parseCode(c)).find((p) => !p.ok);
  const goal = objectiveOf(aim, target);
  const start = () => {
    if (goal === null) return;
    const inventory = { ...layoutForm(form, layout, skater), elements: entriesOf(codes, form) };
    ask({ kind: 'best', inventory, objective: goal });
  };
  return (
    <>
      <form
        className="stack"
        style={{ maxWidth: '36rem' }}
        onSubmit={(event) => {
          event.preventDefault();
          if (bad === undefined && codes.length > 0) start();
        }}
      >
        <TextField value={text} onChange={setLine} maxLength={1000}>
          <Label className="lab">Elements that are in her run-throughs, each as often as it may be used</Label>
          <TextArea className="field" rows={3} spellCheck="false" />
        </TextField>
        {bad?.ok === false && <p className="problem">{describeProblem(bad.error)}</p>}
        <div className="pair">
          <label>
            <span className="lab">Best for</span>
            <select className="field" value={aim} onChange={(e) => setAim(e.target.value as Aim)}>
              {Object.entries(AIMS).map(([key, name]) => (
                <option key={key} value={key}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          {aim === 'target' && (
            <label>
              <span className="lab">Points</span>
              <input className="field" inputMode="decimal" value={target} onChange={(e) => setTarget(e.target.value)} />
            </label>
          )}
          <Button
            type="submit"
            className="btn main"
            isDisabled={bad !== undefined || codes.length === 0 || goal === null || asking.state === 'working'}
          >
            Look for the best
          </Button>
        </div>
      </form>
      <div role="status" style={{ marginTop: '1rem' }}>
        {asking.state === 'working' && (
          <p className="tie">
            Trying the legal layouts of {codes.length} elements.
            <Button className="btn" onPress={stop}>
              Stop
            </Button>
          </p>
        )}
        {asking.state === 'done' && !asking.answer.ok && <p className="problem">{asking.answer.why}</p>}
        {asking.state === 'done' && asking.answer.ok && asking.answer.value.kind === 'best' && (
          <Found answer={asking.answer.value} onKeep={onKeep} />
        )}
      </div>
    </>
  );
}

/** Elements of this layout and of the other versions, without what is held back until a date. */
function offered(form: Record<string, unknown>, others: readonly LayoutRecord[], skater: Skater): string[] {
  const own = codesIn(form);
  const held = new Set(skater.notNow.map((n) => n.code));
  const more = others.flatMap((l) => codesIn(l.form)).filter((code) => !own.includes(code));
  return [...own, ...new Set(more)].filter((code) => !held.has(code));
}

const codesIn = (form: Readonly<Record<string, unknown>>): string[] =>
  Array.isArray(form.elements)
    ? (form.elements as { code?: unknown }[]).flatMap((e) => (typeof e.code === 'string' ? [e.code] : []))
    : [];

/** Each code once with how often it may be used, and what the layout says of it (reliability, grade). */
function entriesOf(codes: readonly string[], form: Record<string, unknown>): Record<string, unknown>[] {
  const said = Array.isArray(form.elements) ? (form.elements as Record<string, unknown>[]) : [];
  return [...new Set(codes)].map((code) => {
    const known = said.find((e) => e.code === code) ?? {};
    const { outcomes, grade } = known;
    return {
      code,
      max: codes.filter((c) => c === code).length,
      ...(outcomes === undefined ? {} : { outcomes }),
      ...(grade === undefined ? {} : { grade }),
    };
  });
}

function objectiveOf(aim: Aim, target: string): Objective | null {
  if (aim === 'expected') return { kind: 'expected' };
  if (aim === 'worse-days') return { kind: 'quantile', level: 0.1 };
  const points = Number(target.replace(',', '.'));
  return target.trim() === '' || !Number.isFinite(points) ? null : { kind: 'chance', target: Math.round(points * 100) };
}

/** Two averages closer than this share of the spread are not told apart by one program. */
const NOISE = 0.1;

function Found({ answer, onKeep }: { answer: BestAnswer; onKeep: (codes: readonly string[]) => void }) {
  const [best, ...next] = answer.best.layouts;
  if (best === undefined) {
    return (
      <>
        <p>
          <b>No legal layout can be made of these elements.</b>
        </p>
        <ul>
          {answer.best.conflict.map((c) => (
            <li key={c}>{c}</li>
          ))}
        </ul>
      </>
    );
  }
  const safe = answer.safe.layouts[0];
  const goal = answer.best.objective;
  return (
    <div className="stack">
      <p className="say">Best of the elements and reliabilities you entered, by this model</p>
      <p>
        <b className="code" style={{ whiteSpace: 'normal' }}>
          {best.codes.join(' · ')}
        </b>
      </p>
      <p>
        {goal.kind === 'chance' && (
          <>
            {(goal.target / 100).toFixed(2)} or more {days(best.value)} <span className="only">coach only</span>.{' '}
          </>
        )}
        On average {tenths(best.expected)}; scores like this usually lie within {tenths(1.3 * best.sd)} of it.{' '}
        {answer.best.proven
          ? 'No legal layout of these entries is better by this model.'
          : 'The search could not be closed: another layout may be better.'}
      </p>
      {safe !== undefined && <p>{safeSentence(best, safe)}</p>}
      {next.length > 0 && (
        <ul>
          {next.map((one) => (
            <li key={one.codes.join()}>{versus(best, one)}</li>
          ))}
        </ul>
      )}
      {[...answer.best.excluded.map(({ code, why }) => `Left out: ${code}: ${why}.`), ...answer.best.warnings].map(
        (w) => (
          <p key={w} className="small quiet">
            {w}
          </p>
        ),
      )}
      <p className="small quiet">
        A jump that is added means more attempts a week: decide with coach, parents and, in pain or growth, medical
        staff.
      </p>
      <div className="tie">
        <Button className="btn" onPress={() => onKeep(best.codes)}>
          Keep it as a version to compare
        </Button>
      </div>
    </div>
  );
}

function safeSentence(best: BestLayout, safe: BestLayout): string {
  if (sameCodes(best, safe)) return 'It is also the safest: no other holds more on the worse days.';
  const gap = best.expected - safe.expected;
  const size = gap < NOISE * best.sd ? 'no real difference on average' : `${tenths(gap)} less on average`;
  return `The safe alternative, ${safe.codes.join(' · ')}: ${size}, and ${tenths(safe.value)} or more on nine of ten days.`;
}

const sameCodes = (a: BestLayout, b: BestLayout): boolean => a.codes.toSorted().join() === b.codes.toSorted().join();

function versus(best: BestLayout, other: BestLayout): string {
  const without = best.codes.filter((code) => !other.codes.includes(code));
  const instead = other.codes.filter((code) => !best.codes.includes(code));
  const gap = best.expected - other.expected;
  const size = Math.abs(gap) < NOISE * best.sd ? 'no real difference' : `${tenths(gap)} less on average`;
  if (instead.length === 0 && without.length === 0) return `In another order, ${other.codes.join(' · ')}: ${size}.`;
  return `${instead.join(', ') || 'nothing'} in place of ${without.join(', ') || 'nothing'}: ${size}.`;
}
