import type { UseQueryResult } from '@tanstack/react-query';
import type { ReactNode } from 'react';

/** Shows an answer, or in words that it is on its way or that it did not come. */
export function Asked<T>({
  query,
  children,
}: {
  query: Pick<UseQueryResult<T>, 'data' | 'error'>;
  children: (value: T) => ReactNode;
}) {
  if (query.data !== undefined) return children(query.data);
  if (query.error !== null) {
    return (
      <p className="problem" role="alert">
        {query.error.message}
      </p>
    );
  }
  return <p className="quiet">Looking it up.</p>;
}
