import { Fragment } from 'react';
import type { Citation } from '../../../src/rulebook/index.ts';
import { words } from '../words/index.ts';

type Trust = Pick<Citation, 'status' | 'provisional' | 'source'>;

/** The small letter of trust after a figure: none for what was published and read. */
export function Mark({ citation }: { citation: Trust }) {
  const letter = letterOf(citation);
  return letter === '' ? null : (
    <span className="mk" title={citation.source}>
      {letter}
    </span>
  );
}

const letterOf = ({ provisional, status }: Trust): string =>
  provisional ? 'p' : status === 'memory' ? 'm' : status === 'local' ? 'y' : '';

/** A source as it stands beside a figure, with its mark and what the mark means. */
export function Source({ citation }: { citation: Trust }) {
  const letter = letterOf(citation);
  return (
    <span className="small quiet">
      {words.source}: {citation.source}
      <Mark citation={citation} />
      {letter !== '' && meaningBeside(citation.source, words.marks[letter as keyof typeof words.marks])}
    </span>
  );
}

/** What the mark means, unless the source says it itself. */
const meaningBeside = (source: string, meaning: string): string => (source.includes(meaning) ? '' : ` (${meaning})`);

/** What the letters mean, at the foot of a page that uses them. */
export function Marks() {
  return (
    <p className="small quiet">
      {words.marksRow.start}
      {Object.entries(words.marks).map(([letter, meaning]) => (
        <Fragment key={letter}>
          {' '}
          <span className="mk">{letter}</span> {meaning},
        </Fragment>
      ))}{' '}
      {words.marksRow.end}
    </p>
  );
}
