import { Link } from '@tanstack/react-router';
import { day } from '../../words/numbers.ts';
import type { Twice } from './twice.ts';

/** What becomes of a sheet that is kept already. */
export type TwiceChoice = 'replace' | 'both';

interface KeptProps {
  readonly index: number;
  readonly twice: Twice;
  readonly choice: TwiceChoice | null;
  readonly onChoose: (choice: TwiceChoice) => void;
}

/** The same sheet a second time: open the kept one, put this in its place, or keep both; nothing chosen beforehand. */
export function KeptAlready({ index, twice: { kept, figures }, choice, onChoose }: KeptProps) {
  const when = kept.date === null ? kept.season : day(kept.date);
  const option = (value: TwiceChoice, words: string) => (
    <label className="btn">
      <input type="radio" name={`twice-${index}`} checked={choice === value} onChange={() => onChoose(value)} /> {words}
    </label>
  );
  return (
    <fieldset className="problem">
      <legend className="lab">
        {figures === 'the same'
          ? `Already kept: this sheet of ${when}, with the same figures.`
          : `Already kept: a sheet of ${when} and this segment, with other figures. It may have been corrected.`}
      </legend>
      <div className="tie">
        <Link className="btn" to="/reading/$id" params={{ id: kept.id }}>
          Open the kept one
        </Link>
        {option('replace', 'Put this one in its place')}
        {option('both', 'Keep both')}
      </div>
      {choice === 'replace' && <p className="small quiet">Undo brings the kept one back.</p>}
    </fieldset>
  );
}
