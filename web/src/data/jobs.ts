/** A job of the server as it stands. */
export interface JobView {
  readonly id: string;
  readonly state: 'working' | 'done' | 'stopped' | 'failed';
  readonly share: number | null;
  readonly saying: string;
  readonly result: unknown;
  readonly error: string | null;
}

/** Follows a job to its end by server-sent events. */
export function followJob(id: string, onChange: (job: JobView) => void): void {
  const events = new EventSource(`/api/jobs/${id}/events`);
  events.onmessage = ({ data }: MessageEvent<string>) => {
    const job = JSON.parse(data) as JobView;
    onChange(job);
    if (job.state !== 'working') events.close();
  };
}
