import { api } from '../../data/api.ts';
import { followJob, type JobView } from '../../data/jobs.ts';
import type { Reading, ReadProtocol } from './types.ts';

interface Answer {
  readonly protocols: readonly ReadProtocol[];
  readonly problems: readonly string[];
}

/** Headers of a request that carries the bytes of a sheet. */
export const sheetHeaders = (name: string) => ({
  'content-type': 'application/octet-stream',
  'x-sheet-name': encodeURIComponent(name),
});

/** Has the server read a sheet without keeping it; a failure is thrown in words. */
export function readOnServer(
  sheet: Blob,
  name: string,
  onProgress: (saying: string, share: number | null) => void,
): Reading<Answer> {
  let id = '';
  let stopped = false;
  const end = () => void api.ask(`/api/jobs/${id}`, { method: 'DELETE' }).catch(() => undefined);
  const start = async (): Promise<Answer> => {
    const request = { method: 'POST', headers: sheetHeaders(name), body: sheet };
    ({ id } = await api.ask<JobView>('/api/sheets?keep=later', request));
    if (stopped) end();
    return await new Promise((resolve, reject) =>
      followJob(id, (job) => {
        if (job.state === 'working') onProgress(job.saying, job.share);
        else if (job.state === 'done') resolve(job.result as Answer);
        else reject(new Error(`${job.error ?? job.saying} Nothing was kept.`));
      }),
    );
  };
  const stop = () => {
    stopped = true;
    if (id !== '') end();
  };
  return { done: start(), stop };
}
