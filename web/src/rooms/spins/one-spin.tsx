import type { SpinLevel } from '../../../../src/levels/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { Row } from '../../parts/frame.tsx';
import { LevelChances } from '../../parts/level-chances.tsx';
import { Source } from '../../parts/mark.tsx';
import { Why } from '../../parts/why.tsx';
import { words } from '../../words/index.ts';

interface OneSpinProps {
  readonly no: number;
  readonly level: SpinLevel;
  readonly rules: ChosenRules;
}

/** One spin: its level, what holds it there, what counts and what does not; every answer with its rule. */
export function OneSpin({ no, level, rules }: OneSpinProps) {
  const parts = level.critical.map((i) => i + 1).join(', ');
  return (
    <Row about={`Spin ${no}`} aside={level.code}>
      <p className="say">
        <Why about={words.steps.whyLevel} answer={<WhySpin level={level} rules={rules} />}>
          {words.steps.spinLevel(`${level.level}`, level.code)}
        </Why>
      </p>
      {level.faults.map((f) => (
        <p key={f} className="problem">
          {f}
        </p>
      ))}
      {level.limitedBy.length > 0 && (
        <p>{words.steps.heldBy(level.limitedBy.map((l) => words.steps.spinLimits[l]).join(', '))}</p>
      )}
      {level.spare !== null && (
        <p>
          <Why
            about={words.steps.whySpare}
            answer={
              <>
                <p>{words.steps.spinSpareRule}</p>
                <Cited rules={rules} field="features" />
              </>
            }
          >
            {level.spare === 0 ? words.steps.spinSpareZero : words.steps.spinSpare(level.spare)}
          </Why>{' '}
          {level.spare === 0 && parts !== '' && words.steps.hangsOnParts(parts)}
        </p>
      )}
      <LevelChances chances={level.chances} withoutSure />
      {level.notes.map((n) => (
        <p key={n.note} className="quiet">
          {n.note}
        </p>
      ))}
      {level.warnings.map((w) => (
        <p key={w} className="small quiet">
          {w}
        </p>
      ))}
    </Row>
  );
}

function Cited({ rules, field }: { rules: ChosenRules; field: string }) {
  return (
    <p>
      <Source citation={rules.levels.citation(`spins.${rules.category}.${field}`)} />
    </p>
  );
}

/** Field of the spin rules behind each limit. */
const FIELD: Readonly<Record<SpinLevel['limitedBy'][number], string>> = {
  features: 'features',
  gate: 'gate',
  cap: 'cap',
  foot: 'maxFeaturesPerFoot',
  variations: 'maxVariations',
  revolutions: 'minRevolutions',
};

/** Which features count and which do not, and the rules that hold the level where it is. */
function WhySpin({ level, rules }: { level: SpinLevel; rules: ChosenRules }) {
  const asked = rules.levels.spins(rules.category);
  const said: Readonly<Record<SpinLevel['limitedBy'][number], string>> = {
    features: `One level for each feature that counts; the list of the season has ${asked.features.length}.`,
    gate: `Level 4 needs one of: ${asked.gate.join(', ')}.`,
    cap: asked.cap === null ? 'The highest level is not known.' : `At most level ${asked.cap} in this category.`,
    foot: `At most ${asked.maxFeaturesPerFoot} features on one foot.`,
    variations:
      asked.maxVariations === null ? 'No limit of variations.' : `At most ${asked.maxVariations} difficult variations.`,
    revolutions: `At least ${asked.minRevolutions} revolutions, ${asked.minRevolutionsPerFoot} on each foot of a change.`,
  };
  return (
    <>
      <ul>
        {level.features.map((f) => (
          <li key={`${f.index}${f.feature}`} className={f.counted ? undefined : 'quiet'}>
            {f.feature}, part {f.index + 1}: {f.counted ? words.steps.spinCounts : (f.reason ?? '')}
          </li>
        ))}
      </ul>
      <ul className="stack">
        {(level.limitedBy.length === 0 ? (['features'] as const) : level.limitedBy).map((l) => (
          <li key={l} className={level.limitedBy.includes(l) ? 'verdict flow broken' : 'verdict flow'}>
            {said[l]} <Source citation={rules.levels.citation(`spins.${rules.category}.${FIELD[l]}`)} />
          </li>
        ))}
      </ul>
    </>
  );
}
