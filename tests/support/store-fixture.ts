import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { keptData } from '../../src-main/files/kept-data.ts';
import type { Job, JobProgress, Person, StoreHost } from '../../src-main/ipc/contract.ts';
import { type FileJobs, fileJobs } from '../../src-main/store/file-jobs.ts';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, madePerson, madeResult, scenario } from './made-attempts.ts';

/** A program's store in a folder of its own, as one laptop has it. */
export interface Laptop {
  readonly folder: string;
  readonly store: Store;
  readonly host: Pick<StoreHost, keyof ReturnType<typeof storeServices>>;
  readonly jobs: FileJobs;
  readonly person: Person;
  /** Makes a finished attempt of its person. Gives its id. */
  finished(seed: number, steps?: number): Promise<string>;
  file(name: string): { readonly path: string; readonly name: string };
  remove(): void;
}

export async function openLaptop(personName = 'Ada Example'): Promise<Laptop> {
  const folder = mkdtempSync(join(tmpdir(), 'laptop-'));
  const store = new Store(folder);
  const host = storeServices(store);
  const person = madePerson(personName);
  await host.savePerson(person);
  return {
    folder,
    store,
    host,
    jobs: fileJobs(store, keptData(folder), '0.0.0-test'),
    person,
    finished: async (seed, steps = 120) => {
      const id = await host.beginAttempt({
        personId: person.id,
        place: 'trial',
        scenario,
        seed: 1,
        modelVersion: 'test',
      });
      await host.appendCommands(id, 0, madeCommands(steps, seed));
      await host.finishAttempt(id, madeResult(steps, seed));
      return id;
    },
    file: (name) => ({ path: join(folder, name), name }),
    remove: () => {
      store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Waits until a job has ended, as the page does: by asking. */
export async function ended(
  jobs: FileJobs,
  job: Job,
  eachTime?: (progress: JobProgress) => void,
): Promise<JobProgress> {
  for (;;) {
    const progress = jobs.progress(job.id);
    if (progress.state !== 'running') return progress;
    eachTime?.(progress);
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

/** Everything in a store, to see that nothing of it changed. */
export const contentOf = (store: Store): string =>
  store.use((database) =>
    JSON.stringify(
      ['people', 'classes', 'class_members', 'scenarios', 'attempts', 'commands', 'results', 'shapes'].map((table) =>
        database
          .all(`SELECT * FROM ${table} ORDER BY rowid`)
          .map((row) =>
            Object.values(row).map((value) =>
              value instanceof Uint8Array ? Buffer.from(value).toString('base64') : value,
            ),
          ),
      ),
    ),
  );
