/** A job of the server as it stands. */
export interface JobView {
  readonly id: string;
  readonly state: 'working' | 'done' | 'stopped' | 'failed';
  readonly share: number | null;
  readonly saying: string;
  readonly result: unknown;
  readonly error: string | null;
}

/** Follows a job to its end by server-sent events; the result is fetched when it is there. */
export function followJob(id: string, onChange: (job: JobView) => void): void {
  const events = new EventSource(`/api/jobs/${id}/events`);
  events.onmessage = ({ data }: MessageEvent<string>) => {
    const job = JSON.parse(data) as JobView;
    if (job.state !== 'working') events.close();
    if (job.state === 'done') void withResult(job).then(onChange);
    else onChange(job);
  };
}

async function withResult(job: JobView): Promise<JobView> {
  const lost: JobView = { ...job, state: 'failed', error: 'The server did not hand over what it read.' };
  const answer = await fetch(`/api/jobs/${job.id}`).catch(() => null);
  return answer?.ok === true ? ((await answer.json()) as JobView) : lost;
}
