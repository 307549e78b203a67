import { useParams } from '@tanstack/react-router';

/** The `$id` of the address that is open; empty if it has none. */
export function useId(): string {
  const params: unknown = useParams({ strict: false });
  const id = typeof params === 'object' && params !== null && 'id' in params ? params.id : '';
  return typeof id === 'string' ? id : '';
}
