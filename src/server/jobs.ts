/** Long work: started, watched, stopped. Jobs live in memory; their results are kept for a while. */

export type JobState = 'working' | 'done' | 'stopped' | 'failed';

export interface JobView {
  readonly id: string;
  readonly what: string;
  readonly state: JobState;
  /** How far, 0 to 1; null: not known. */
  readonly share: number | null;
  /** What is being done now, as a sentence. */
  readonly saying: string;
  readonly result: unknown;
  readonly error: string | null;
}

export type Progress = (share: number | null, saying: string) => void;

export interface Jobs {
  start(what: string, work: (progress: Progress, signal: AbortSignal) => Promise<unknown>): JobView;
  view(id: string): JobView | null;
  stop(id: string): boolean;
  /** Calls back at once and at every change; the answer ends the watching. Null: no such job, or enough watch it. */
  watch(id: string, onChange: (view: JobView) => void): (() => void) | null;
  stopAll(): void;
}

/** Pages that may watch one job at a time. */
export const MOST_WATCHERS = 8;

interface Job {
  view: JobView;
  readonly controller: AbortController;
  readonly watchers: Set<(view: JobView) => void>;
}

/**
 * @param newId makes ids
 * @param keep how many ended jobs are remembered, oldest forgotten first
 */
export function jobRunner(newId: () => string, keep = 50): Jobs {
  const jobs = new Map<string, Job>();

  const change = (job: Job, part: Partial<JobView>) => {
    job.view = { ...job.view, ...part };
    for (const watcher of job.watchers) watcher(job.view);
  };

  const forgetOld = () => {
    const ended = [...jobs.values()].filter((job) => job.view.state !== 'working');
    for (const job of ended.slice(0, Math.max(0, ended.length - keep))) jobs.delete(job.view.id);
  };

  return {
    start(what, work) {
      forgetOld();
      const controller = new AbortController();
      const view: JobView = {
        id: newId(),
        what,
        state: 'working',
        share: null,
        saying: what,
        result: null,
        error: null,
      };
      const job: Job = { view, controller, watchers: new Set() };
      jobs.set(view.id, job);
      const progress: Progress = (share, saying) => {
        if (job.view.state === 'working') change(job, { share, saying });
      };
      work(progress, controller.signal).then(
        (result) => job.view.state === 'working' && change(job, { state: 'done', share: 1, result }),
        (error: unknown) => {
          if (job.view.state !== 'working') return;
          const message = error instanceof Error ? error.message : String(error);
          change(job, { state: controller.signal.aborted ? 'stopped' : 'failed', error: message });
        },
      );
      return job.view;
    },
    view: (id) => jobs.get(id)?.view ?? null,
    stop(id) {
      const job = jobs.get(id);
      if (job?.view.state !== 'working') return false;
      change(job, { state: 'stopped', saying: 'Stopped. Nothing was kept.' });
      job.controller.abort();
      return true;
    },
    watch(id, onChange) {
      const job = jobs.get(id);
      if (job === undefined || job.watchers.size >= MOST_WATCHERS) return null;
      job.watchers.add(onChange);
      onChange(job.view);
      return () => job.watchers.delete(onChange);
    },
    stopAll() {
      for (const job of jobs.values()) job.controller.abort();
    },
  };
}
