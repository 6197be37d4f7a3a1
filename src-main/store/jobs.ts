import { randomUUID } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import { Refusal } from '../ipc/answer.ts';
import type { Job, JobProgress } from '../ipc/contract.ts';
import { storeLine } from './sqlite.ts';

/** Thrown by `pause` once the person has cancelled. */
export class Cancelled extends Error {}

/** What went wrong with a file, in lines for the person. */
export class BadFile extends Error {
  readonly lines: readonly string[];
  constructor(lines: readonly string[]) {
    super(lines.join('\n'));
    this.lines = lines;
  }
}

/** What a long piece of work is given. */
export interface JobControl {
  readonly id: string;
  /** Says how far it is. */
  progress(done: number, of: number): void;
  /** Lets everything else have its turn; throws `Cancelled` once the work is not wanted any more. */
  pause(): Promise<void>;
}

export interface JobOutcome {
  readonly lines: readonly string[];
  /** Attempts that should be played again, to see that they are what they say. */
  readonly toReplay?: readonly string[];
}

interface Running extends JobProgress {
  cancelled: boolean;
}

/** Finished jobs that can still be asked for. */
const MOST_KEPT = 50;
/** Between pauses; a frame of a page is 16 ms. */
const LONGEST_TURN_MS = 12;

function faultLines(fault: unknown): readonly string[] {
  if (fault instanceof BadFile) return fault.lines;
  if (fault instanceof Refusal) return [fault.message];
  const line = storeLine(fault);
  if (line !== null) return [line];
  const { code } = fault as NodeJS.ErrnoException;
  if (code === 'ENOSPC') return ['The disk is full. Nothing was changed; make room and try again.'];
  if (typeof code === 'string' && /^E[A-Z]+$/.test(code)) return [`The file could not be used (${code}).`];
  console.error('A job failed:', fault);
  return ['It failed inside the program; the terminal it was started from says more.'];
}

/** Long pieces of work of one program, asked for by id. */
export class Jobs {
  readonly #jobs = new Map<string, Running>();

  /**
   * Starts work on a file; one at a time. It never throws into the program later: what goes wrong is what its progress
   * says.
   */
  start(fileName: string, work: (control: JobControl) => Promise<JobOutcome>): Job {
    this.refuseWhileBusy();
    const id = randomUUID();
    const set = (change: Partial<Running>): void => {
      this.#jobs.set(id, { ...(this.#jobs.get(id) as Running), ...change });
    };
    this.#jobs.set(id, { done: 0, of: 0, state: 'running', lines: [], cancelled: false });
    this.#forgetOld();
    let turn_ms = performance.now();
    const control: JobControl = {
      id,
      progress: (done, of) => set({ done, of }),
      pause: async () => {
        if (this.#jobs.get(id)?.cancelled) throw new Cancelled();
        if (performance.now() - turn_ms < LONGEST_TURN_MS) return;
        await setImmediate();
        turn_ms = performance.now();
      },
    };
    work(control).then(
      ({ lines, toReplay }) => set({ state: 'finished', lines, toReplay }),
      (fault) => {
        if (fault instanceof Cancelled) set({ state: 'cancelled', lines: ['Cancelled. Nothing was changed.'] });
        else set({ state: 'failed', lines: faultLines(fault) });
      },
    );
    return { id, fileName };
  }

  refuseWhileBusy(): void {
    if ([...this.#jobs.values()].some((job) => job.state === 'running')) {
      throw new Refusal('Another file is being written or taken in. Wait for it, or cancel it.');
    }
  }

  progress(id: string): JobProgress {
    const job = this.#jobs.get(id);
    if (job === undefined) throw new Refusal('There is no such piece of work any more.');
    const { done, of, state, lines, toReplay } = job;
    return { done, of, state, lines, ...(toReplay === undefined ? {} : { toReplay }) };
  }

  /** Asks it to stop; it has when its progress says so. */
  cancel(id: string): void {
    const job = this.#jobs.get(id);
    if (job === undefined) throw new Refusal('There is no such piece of work any more.');
    job.cancelled = true;
  }

  #forgetOld(): void {
    const ended = [...this.#jobs].filter(([, job]) => job.state !== 'running');
    for (const [id] of ended.slice(0, Math.max(0, ended.length - MOST_KEPT))) this.#jobs.delete(id);
  }
}
