import type { Citation } from '../../../../src/rulebook/index.ts';
import { Mark, Source } from '../../parts/mark.tsx';
import { Why } from '../../parts/why.tsx';

interface SourcedProps {
  /** The name of the rule, as words. */
  readonly rule: string;
  readonly value: string;
  readonly citation: Citation;
  readonly book: string;
}

/** A value that shows its source when it is hovered, and opens it when it is pressed. */
export function Sourced({ rule, value, citation, book }: SourcedProps) {
  return (
    <>
      <Why
        about={`${rule}: ${value}`}
        hint={citation.source}
        answer={
          <>
            <p>
              <Source citation={citation} />
            </p>
            <p>
              In force in {book}
              {citation.status === 'published'
                ? '; read in the text that is named.'
                : citation.status === 'local'
                  ? '; your own entry.'
                  : '; not read in a published text. Your federation’s own current rules decide.'}
            </p>
          </>
        }
      >
        {value}
      </Why>
      <Mark citation={citation} />
    </>
  );
}
