import { createWriteStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import type { IncomingMessage } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { Refusal } from '../ipc/answer.ts';
import type { HostReply, Job } from '../ipc/contract.ts';
import { BACKUP_ENDING, LARGEST_BACKUP_BYTES } from '../store/backup.ts';
import { BUNDLE_ENDING, BUNDLE_LIMITS } from '../store/bundle-format.ts';
import { type FileJobs, type NamedFile, withEnding } from '../store/file-jobs.ts';
import type { ReportPages } from '../store/report-pages.ts';
import { BadRequest } from './body.ts';

/** What a browser sends: a bundle to take in, or a backup to restore. */
export type UploadKind = 'bundle' | 'store';

const LARGEST: Readonly<Record<UploadKind, number>> = {
  bundle: BUNDLE_LIMITS.file_bytes,
  store: LARGEST_BACKUP_BYTES,
};

/**
 * Files that go between a browser and the program: the browser asks the person, the program works on a copy of its own
 * in a temporary folder that nobody else may read.
 */
export class Exchange {
  readonly reports: ReportPages;
  readonly #jobs: FileJobs;
  readonly #ready = new Map<string, NamedFile>();
  #folder: Promise<string> | null = null;
  #count = 0;

  constructor(jobs: FileJobs, reports: ReportPages) {
    this.#jobs = jobs;
    this.reports = reports;
  }

  /** Starts writing a file for the browser to fetch once its job has finished. */
  async prepare(name: string, ending: string, start: (file: NamedFile) => Job): Promise<Job> {
    this.#jobs.refuseWhileBusy();
    const file: NamedFile = { path: await this.#newPath(), name: withEnding(name, ending) };
    const job = start(file);
    this.#ready.set(job.id, file);
    return job;
  }

  exportBundle(name: string, ids: readonly string[]): Promise<Job> {
    return this.prepare(name, BUNDLE_ENDING, (file) => this.#jobs.exportTo(file, ids));
  }

  backupStore(name: string): Promise<Job> {
    return this.prepare(name, BACKUP_ENDING, (file) => this.#jobs.backupTo(file));
  }

  /** The written file of a finished job, to be sent once; null when there is none. */
  take(jobId: string): NamedFile | null {
    const file = this.#ready.get(jobId);
    if (file === undefined || this.#jobs.progress(jobId).state !== 'finished') return null;
    this.#ready.delete(jobId);
    return { ...file, after: () => rm(file.path, { force: true }) };
  }

  /** Receives a file, piece by piece and no further than its limit, and starts the work on it. */
  async receive(kind: UploadKind, name: string, request: IncomingMessage): Promise<HostReply> {
    const most = LARGEST[kind];
    if (Number(request.headers['content-length'] ?? 0) > most) throw new BadRequest(413, 'The file is too large.');
    try {
      this.#jobs.refuseWhileBusy();
      const path = await this.#newPath();
      const file: NamedFile = { path, name, after: () => rm(path, { force: true }) };
      await this.#write(request, path, most);
      return { ok: true, value: kind === 'bundle' ? this.#jobs.importFrom(file) : this.#jobs.restoreFrom(file) };
    } catch (fault) {
      if (fault instanceof Refusal) return { ok: false, problems: [fault.message] };
      throw fault;
    }
  }

  async close(): Promise<void> {
    if (this.#folder !== null) await rm(await this.#folder, { recursive: true, force: true });
    this.#folder = null;
  }

  async #newPath(): Promise<string> {
    this.#folder ??= mkdtemp(join(tmpdir(), 'rimward-exchange-'));
    this.#count += 1;
    return join(await this.#folder, String(this.#count));
  }

  async #write(request: IncomingMessage, path: string, most: number): Promise<void> {
    let size = 0;
    const limited = async function* (source: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
      for await (const chunk of source) {
        size += chunk.length;
        if (size > most) throw new BadRequest(413, 'The file is too large.');
        yield chunk;
      }
    };
    try {
      await pipeline(request, limited, createWriteStream(path, { mode: 0o600, flags: 'wx' }));
    } catch (fault) {
      await rm(path, { force: true });
      if ((fault as NodeJS.ErrnoException).code === 'ENOSPC')
        throw new Refusal('The disk is full. Nothing was changed.');
      throw fault;
    }
  }
}
