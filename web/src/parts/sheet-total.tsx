import { Link } from '@tanstack/react-router';
import type { ProtocolRecord } from '../data/api.ts';
import { words } from '../words/index.ts';
import { points } from '../words/numbers.ts';
import { Why } from './why.tsx';

/** The total of a kept sheet; asked why, it names its printed parts and leads to the reading. */
export function SheetTotal({ protocol }: { protocol: ProtocolRecord }) {
  const { id, total, tes, pcs } = protocol;
  if (total === null) return null;
  return (
    <Why
      about={`${words.why} ${points(total)}`}
      answer={
        <>
          <p>
            {tes === null || pcs === null ? words.season.printedOnly : words.season.printed(points(tes), points(pcs))}{' '}
            {words.season.recomputed}
          </p>
          <p>
            <Link to="/reading/$id" params={{ id }}>
              {words.season.openReading}
            </Link>
          </p>
        </>
      }
    >
      {points(total)}
    </Why>
  );
}
