import { Link } from '@tanstack/react-router';
import { pronouns, type Pronouns } from '../../../../src/notation/index.ts';
import type { Competition, Note, ProtocolRecord, Skater } from '../../data/api.ts';
import { readingOf, type ReadingOf } from '../../data/reading.ts';
import { useList, useRecord } from '../../data/use.ts';
import { Patterns } from '../../figures/patterns.tsx';
import { Asked } from '../../parts/asked.tsx';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { ForTheCoach } from './for-the-coach.tsx';
import { HerPage } from './her-page.tsx';

/** Loads what a reading needs and reads it here in the browser. */
function useReading(id: string) {
  const record = useRecord('protocols', id);
  const skaterId = record.data?.skaterId ?? '';
  const wanted = skaterId !== '';
  const skater = useRecord('skaters', skaterId);
  const layouts = useList('layouts', { skaterId });
  const others = useList('protocols', { skaterId });
  const competitions = useList('competitions');
  const competitionId = record.data?.competitionId ?? '';
  const fields = useList('fields', { competitionId });
  const notes = useList('notes', { aboutId: id });
  const ready =
    wanted &&
    layouts.data !== undefined &&
    others.data !== undefined &&
    competitions.data !== undefined &&
    notes.data !== undefined &&
    (competitionId === '' || fields.data !== undefined);
  return {
    record,
    skater,
    layouts: layouts.data ?? [],
    others: others.data ?? [],
    competitions: competitions.data ?? [],
    fields: competitionId === '' ? [] : (fields.data ?? []),
    notes: notes.data ?? [],
    ready,
  };
}

export interface PageProps {
  readonly record: ProtocolRecord;
  readonly skater: Skater;
  readonly competition: Competition | null;
  /** Notes about this sheet. */
  readonly notes: readonly Note[];
  readonly who: Pronouns;
  readonly read: Extract<ReadingOf, { ok: true }>;
}

function Page({ of, who }: { of: (props: PageProps) => React.ReactNode; who: string }) {
  const { record, skater, layouts, others, fields, notes, competitions, ready } = useReading(who);
  return (
    <Asked query={record}>
      {(protocol) => (
        <Asked query={skater}>
          {(person) => {
            if (!ready) return <p className="quiet">Reading it.</p>;
            const read = readingOf(protocol, { body: person.body ?? null, layouts, others, fields, notes });
            if (!read.ok) return <NotReadable why={read.why} />;
            const competition = competitions.find((c) => c.id === protocol.competitionId) ?? null;
            return (
              <>
                <Patterns />
                {of({ record: protocol, skater: person, competition, notes, read, who: pronouns(protocol.category) })}
              </>
            );
          }}
        </Asked>
      )}
    </Asked>
  );
}

function NotReadable({ why }: { why: string }) {
  return (
    <Row about="Reading">
      <h1>This sheet cannot be read</h1>
      <p className="problem" role="alert">
        {why}
      </p>
      <p>
        The original is kept. <Link to="/add">Add it once more</Link> to look at every figure.
      </p>
    </Row>
  );
}

/** The reading for the coach. */
export function ReadingPage() {
  const id = useId();
  return <Page who={id} of={(props) => <ForTheCoach key={id} {...props} />} />;
}

/** The page for the skater; the coach sees it before she releases it. */
export function SkaterPage() {
  const id = useId();
  return <Page who={id} of={(props) => <HerPage {...props} />} />;
}
