import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Kind } from '../../../src/store/kinds.ts';
import { api, type RecordOf } from './api.ts';

/** Records of a kind, kept fresh by the writes below. */
export const useList = <K extends Kind>(kind: K, query: Record<string, string> = {}) =>
  useQuery({ queryKey: [kind, 'list', query], queryFn: () => api.list(kind, query) });

export const useRecord = <K extends Kind>(kind: K, id: string) =>
  useQuery({ queryKey: [kind, 'one', id], queryFn: () => api.get(kind, id), enabled: id !== '' });

/** Writes a record at once (there is no "save" button anywhere); everything that shows it is asked again. */
export function usePut<K extends Kind>(kind: K) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (record: RecordOf<K>) => api.put(kind, record),
    onSuccess: () => Promise.all([kind, 'people'].map((shown) => client.invalidateQueries({ queryKey: [shown] }))),
  });
}

export function useUndo() {
  const client = useQueryClient();
  return useMutation({ mutationFn: api.undo, onSuccess: () => client.invalidateQueries() });
}
