/** Long work in the program: bundles and backups, with progress and a way to stop. */
import { create } from 'zustand';
import type { Job, JobProgress } from '../../../src-main/ipc/contract.ts';
import { useOwnEyes } from '../../stores/own-eyes.ts';
import { loadPeople } from '../../stores/people-store.ts';
import { loadLimits } from './curve/course-limits.ts';
import { loadLogbook } from './logbook-store.ts';
import { faultWords, storeHost } from './store-host.ts';

/** How often progress is asked for, ms. */
const ASK_EVERY_ms = 120;

export type JobKind = 'export' | 'import' | 'backup' | 'restore';

export interface JobState {
  readonly kind: JobKind | null;
  readonly job: Job | null;
  readonly progress: JobProgress | null;
  readonly problem: string | null;
}

const NOTHING: JobState = { kind: null, job: null, progress: null, problem: null };

export const useJob = create<JobState>(() => NOTHING);

export const jobRuns = ({ kind, progress, problem }: JobState): boolean =>
  kind !== null && problem === null && (progress === null || progress.state === 'running');

export const forgetJob = (): void => useJob.setState(NOTHING);

const rest = (wait_ms: number): Promise<void> => new Promise((resolve) => window.setTimeout(resolve, wait_ms));

/** Starts work and follows it to its end; reads the logbook anew when the work may have changed it. */
export async function runJob(kind: JobKind, start: () => Promise<Job | null>): Promise<void> {
  if (jobRuns(useJob.getState())) return;
  useJob.setState({ ...NOTHING, kind });
  try {
    const job = await start();
    if (job === null) return forgetJob();
    useJob.setState({ job });
    let progress = await storeHost().jobProgress(job.id);
    useJob.setState({ progress });
    while (progress.state === 'running') {
      await rest(ASK_EVERY_ms);
      progress = await storeHost().jobProgress(job.id);
      useJob.setState({ progress });
    }
  } catch (fault) {
    useJob.setState({ problem: faultWords(fault) });
  }
  if (kind === 'import' || kind === 'restore') await Promise.all([loadLogbook(), loadPeople()]);
  if (kind === 'restore') await Promise.all([useOwnEyes.getState().load(), loadLimits()]);
}

export async function cancelJob(): Promise<void> {
  const { job } = useJob.getState();
  if (job === null) return;
  await storeHost()
    .cancelJob(job.id)
    .catch((fault) => useJob.setState({ problem: faultWords(fault) }));
}

/** A file name out of words: letters, digits and dashes. */
export const fileNameOf = (words: string): string =>
  words
    .normalize('NFKD')
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 60) || 'rimward';

/** Today as year-month-day, for file names. */
export const today = (): string => {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
};

export const exportBundle = (name: string, ids: readonly string[]): Promise<void> =>
  runJob('export', () => storeHost().exportBundle(name, ids));
export const importBundle = (): Promise<void> => runJob('import', () => storeHost().importBundle());
