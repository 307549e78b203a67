import { memo, useState } from 'react';
import { Button, Label, TextArea, TextField } from 'react-aria-components';
import { describeProblem, parseCode, pronouns } from '../../../../src/notation/index.ts';
import type { Objective } from '../../../../src/programs/index.ts';
import type { LayoutRecord, Skater } from '../../data/api.ts';
import { layoutForm, type ProgramRecordForms } from '../../data/history.ts';
import { useProgram } from '../../data/use-program.ts';
import { words } from '../../words/index.ts';
import { typed } from '../../words/numbers.ts';
import { Found, SoFar } from './found.tsx';

interface BestProps {
  readonly form: Record<string, unknown>;
  readonly layout: LayoutRecord;
  readonly skater: Skater;
  readonly forms: ProgramRecordForms;
  /** Every version of this program: their elements may be used too. */
  readonly others: readonly LayoutRecord[];
  readonly onKeep: (codes: readonly string[]) => void;
}

type Aim = 'expected' | 'worse-days' | 'target';

const AIMS: Readonly<Record<Aim, string>> = {
  expected: 'the average score',
  'worse-days': 'the worse days (reached on nine of ten)',
  target: 'reaching a target',
};

/** Best of the elements and reliabilities entered, with the safe alternative; never "the right program". */
export const Best = memo(function Best({ form, layout, skater, forms, others, onKeep }: BestProps) {
  const { asking, ask, stop } = useProgram(forms);
  const [top, setTop] = useState(3);
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
    ask({ kind: 'best', inventory, objective: goal, top });
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
          <Label className="lab">{words.layout.inRunThroughs(pronouns(skater.category))}</Label>
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
          <label>
            <span className="lab">{words.layout.howMany}</span>
            <select className="field" value={top} onChange={(e) => setTop(Number(e.target.value))}>
              {[3, 5, 10].map((n) => (
                <option key={n} value={n}>
                  {n}
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
      <div style={{ marginTop: '1rem' }}>
        {asking.state === 'working' && (
          <SoFar
            answer={asking.soFar?.ok === true && asking.soFar.value.kind === 'best' ? asking.soFar.value : null}
            elements={codes.length}
            onStop={stop}
          />
        )}
        <div role="status">
          {asking.state === 'done' && !asking.answer.ok && <p className="problem">{asking.answer.why}</p>}
          {asking.state === 'done' && asking.answer.ok && asking.answer.value.kind === 'best' && (
            <Found answer={asking.answer.value} stopped={asking.stopped} onKeep={onKeep} />
          )}
        </div>
      </div>
    </>
  );
});

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
    const { outcomes, grade, reliability } = known;
    return {
      code,
      max: codes.filter((c) => c === code).length,
      ...(outcomes === undefined ? {} : { outcomes }),
      ...(grade === undefined ? {} : { grade }),
      ...(reliability === undefined ? {} : { reliability }),
    };
  });
}

function objectiveOf(aim: Aim, target: string): Objective | null {
  if (aim === 'expected') return { kind: 'expected' };
  if (aim === 'worse-days') return { kind: 'quantile', level: 0.1 };
  const points = typed(target);
  return points === null ? null : { kind: 'chance', target: Math.round(points * 100) };
}
