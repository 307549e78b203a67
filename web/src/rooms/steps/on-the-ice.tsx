import { useMemo, useState } from 'react';
import { drawSteps, PATTERNS, type Move, type Pattern } from '../../../../src/levels/index.ts';
import type { ChosenRules } from '../../../../src/rulebook/index.ts';
import { Row } from '../../parts/frame.tsx';
import { words } from '../../words/index.ts';
import { nameOf } from './names.ts';

interface IceProps {
  readonly moves: readonly Move[];
  readonly rules: ChosenRules;
  readonly title: string;
}

/** The drawing on the ice, for paper: a print, not a place to work on. */
export function OnTheIce({ moves, rules, title }: IceProps) {
  const [pattern, setPattern] = useState<Pattern>('serpentine');
  const drawing = useMemo(
    () => drawSteps(moves, rules.levels.steps(rules.category), { pattern, title }),
    [moves, rules, pattern, title],
  );
  return (
    <Row about={words.steps.print} aside={words.steps.drawing} wide>
      <div className="pair noprint">
        <label>
          <span className="lab">{words.steps.pattern}</span>
          <select className="field" value={pattern} onChange={(e) => setPattern(e.target.value as Pattern)}>
            {PATTERNS.map((p) => (
              <option key={p} value={p}>
                {words.steps.patterns[p]}
              </option>
            ))}
          </select>
        </label>
        <button type="button" className="btn" onClick={() => window.print()}>
          {words.steps.printIt}
        </button>
      </div>
      <figure className="onice">
        <div tabIndex={0} role="region" aria-label={words.steps.drawing} className="scrolls">
          <img
            className="ice"
            src={`data:image/svg+xml,${encodeURIComponent(drawing.svg)}`}
            alt={words.steps.drawnLine(moves.map(nameOf).join(', '))}
          />
        </div>
        <figcaption>{words.steps.drawingNote}</figcaption>
      </figure>
    </Row>
  );
}
