import type { Job, JobProgress } from '../ipc/contract.ts';
import { backupStore, restoreStore } from './backup.ts';
import { importBundle } from './import-bundle.ts';
import { type JobControl, type JobOutcome, Jobs } from './jobs.ts';
import type { Settings } from './own-files.ts';
import type { Store } from './store.ts';
import { writeBundle } from './write-bundle.ts';

/** A file as a shell has it: where it is, and the name the person knows it by. */
export interface NamedFile {
  readonly path: string;
  readonly name: string;
  /** Called when the work on it has ended, however it did. */
  readonly after?: () => Promise<void>;
}

/** The name a file is given when the person gave it no ending. */
export const withEnding = (name: string, ending: string): string =>
  name.toLowerCase().endsWith(`.${ending}`) ? name : `${name}.${ending}`;

/** The long pieces of work on files, the same in both shells; where the files come from is the shell's. */
export interface FileJobs {
  /** Throws a `Refusal` while other work runs: asked before the person is shown a dialog. */
  refuseWhileBusy(): void;
  exportTo(file: NamedFile, attemptIds: readonly string[]): Job;
  importFrom(file: NamedFile): Job;
  backupTo(file: NamedFile): Job;
  restoreFrom(file: NamedFile): Job;
  progress(jobId: string): JobProgress;
  cancel(jobId: string): void;
}

/** @param program version that goes into bundles */
export function fileJobs(store: Store, settings: Settings, program: string): FileJobs {
  const jobs = new Jobs();
  const start = (file: NamedFile, work: (control: JobControl) => Promise<JobOutcome>): Job =>
    jobs.start(file.name, async (control) => {
      try {
        return await work(control);
      } finally {
        await file.after?.();
      }
    });
  const database = () => store.use((opened) => opened);
  return {
    refuseWhileBusy: () => jobs.refuseWhileBusy(),
    exportTo: (file, ids) => start(file, (control) => writeBundle(database, ids, file.path, program, control)),
    importFrom: (file) => start(file, (control) => importBundle(database(), file.path, file.name, control)),
    backupTo: (file) => start(file, (control) => backupStore(store, settings, file.path, control)),
    restoreFrom: (file) => start(file, (control) => restoreStore(store, settings, file.path, control)),
    progress: (id) => jobs.progress(id),
    cancel: (id) => jobs.cancel(id),
  };
}
