import { basename, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { type BrowserWindow, dialog } from 'electron';
import { FILE_ENDING, type JobProgress, type OpenedFile } from '../ipc/contract.ts';
import { BUNDLE_ENDING } from '../store/bundle-format.ts';
import type { FileJobs } from '../store/file-jobs.ts';
import { t } from '../words/words.ts';
import { readChosen } from './file-dialogs.ts';

const ASK_EVERY_MS = 100;
const ends = (path: string, ending: string): boolean => path.toLowerCase().endsWith(`.${ending}`);

/** The file of ours that a command line names, if any. The program's own folder and switches are no files of ours. */
export function handedPath(args: readonly string[], folder: string): string | null {
  const found = args.find((arg) => !arg.startsWith('-') && (ends(arg, FILE_ENDING) || ends(arg, BUNDLE_ENDING)));
  return found === undefined ? null : resolve(folder, found);
}

async function endOf(jobs: FileJobs, jobId: string): Promise<JobProgress> {
  for (;;) {
    const progress = jobs.progress(jobId);
    if (progress.state !== 'running') return progress;
    await wait(ASK_EVERY_MS);
  }
}

/** Files that the system hands over: a text waits for the page to ask for it, a bundle is taken in once the person agrees. */
export class HandedFiles {
  readonly #jobs: FileJobs;
  readonly #window: () => BrowserWindow;
  #waiting: string | null = null;

  constructor(jobs: FileJobs, window: () => BrowserWindow) {
    this.#jobs = jobs;
    this.#window = window;
  }

  async receive(path: string): Promise<void> {
    if (ends(path, BUNDLE_ENDING)) await this.#takeBundle(path);
    else this.#waiting = path;
  }

  /** The text handed over last, once. Refused when it cannot be read. */
  async take(): Promise<OpenedFile | null> {
    const path = this.#waiting;
    this.#waiting = null;
    return path === null ? null : readChosen(path);
  }

  async #takeBundle(path: string): Promise<void> {
    const name = basename(path);
    const { response } = await dialog.showMessageBox(this.#window(), {
      type: 'question',
      message: t('window.handed.ask', { name }),
      detail: t('window.handed.detail'),
      buttons: [t('window.handed.take'), t('window.handed.leave')],
      defaultId: 0,
      cancelId: 1,
    });
    if (response !== 0) return;
    const { state, lines } = await this.#import(path, name);
    await dialog.showMessageBox(this.#window(), {
      type: state === 'finished' ? 'info' : 'warning',
      message: state === 'finished' ? t('window.handed.taken', { name }) : t('window.handed.notTaken', { name }),
      detail: lines.join('\n'),
      buttons: [t('window.handed.close')],
    });
  }

  async #import(path: string, name: string): Promise<Pick<JobProgress, 'state' | 'lines'>> {
    try {
      return await endOf(this.#jobs, this.#jobs.importFrom({ path, name }).id);
    } catch (fault) {
      return { state: 'failed', lines: [fault instanceof Error ? fault.message : t('window.handed.notBegun')] };
    }
  }
}
