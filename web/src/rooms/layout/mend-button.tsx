import { memo } from 'react';
import { Button } from 'react-aria-components';
import type { Pronouns } from '../../../../src/notation/index.ts';
import { mendText, type Mend, type MendStep } from '../../../../src/programs/index.ts';
import type { ProgramRecordForms } from '../../data/history.ts';
import { useProgram } from '../../data/use-program.ts';
import { words } from '../../words/index.ts';
import { signed } from '../../words/numbers.ts';

/** Everything that a way to mend is looked for from. */
export interface MendQuestion {
  readonly layout: Record<string, unknown>;
  readonly repertoire: readonly string[];
}

interface MendProps {
  readonly rule: string;
  readonly forms: ProgramRecordForms;
  readonly pronouns: Pronouns;
  /** What is asked when it is pressed; the same function at every drawing. */
  readonly question: () => MendQuestion;
  readonly onMend: (steps: readonly MendStep[], said: string) => void;
}

/** Offers the smallest changes that mend a broken rule, each with its effect; one press does it, Undo takes it back. */
export const MendButton = memo(function MendButton({ rule, forms, pronouns, question, onMend }: MendProps) {
  const { asking, ask, stop } = useProgram(forms);
  const value = asking.state === 'done' && asking.answer.ok ? asking.answer.value : null;
  return (
    <div className="mend noprint">
      {asking.state === 'idle' && (
        <Button className="btn" onPress={() => ask({ kind: 'mend', rule, ...question() })}>
          {words.layout.mend}
        </Button>
      )}
      <div role="status">
        {asking.state === 'working' && <p className="quiet">{words.layout.mending}</p>}
        {asking.state === 'done' && !asking.answer.ok && <p className="problem">{asking.answer.why}</p>}
        {value?.kind === 'mend' && value.ways.length === 0 && <p>{words.layout.noWay(pronouns)}</p>}
      </div>
      {value?.kind === 'mend' && value.ways.length > 0 && (
        <ul className="ways" aria-label={words.layout.mend}>
          {value.ways.map((way) => (
            <li key={mendText(way)}>
              <p>
                <b>{mendText(way)}</b>: {effectOf(way)}.
              </p>
              {way.addsJump && <p className="small quiet">{words.layout.addsJump}</p>}
              <Button
                className="btn"
                aria-label={`${words.layout.applyMend}: ${mendText(way)}`}
                onPress={() => {
                  stop();
                  onMend(way.steps, mendText(way));
                }}
              >
                {words.layout.applyMend}
              </Button>
            </li>
          ))}
        </ul>
      )}
      {asking.state === 'done' && (
        <Button className="btn" onPress={stop}>
          {words.layout.leaveIt}
        </Button>
      )}
    </div>
  );
});

function effectOf({ stillBroken, change }: Mend): string {
  const broken = stillBroken.length === 0 ? words.layout.mendsAll : words.layout.stillBroken(stillBroken.length);
  return change === null ? broken : `${broken}; ${words.layout.baseBy(signed(change))}`;
}
