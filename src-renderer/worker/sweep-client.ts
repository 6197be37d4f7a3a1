import { t } from '../i18n/text.ts';
import type { FromSweep, SweepAsked } from './sweep-messages.ts';

/**
 * Computes points of a chart on all cores, each worker taking the next when it has done one. Every outcome is told as it
 * comes.
 *
 * @param signal stops the workers where they are
 * @returns resolves when all are done or the signal has come; rejects when a worker dies
 */
export async function computeOnAllCores(
  asked: readonly Omit<SweepAsked, 'index'>[],
  signal: AbortSignal,
  tell: (outcome: FromSweep) => void,
): Promise<void> {
  const workers: Worker[] = [];
  let next = 0;
  const work = () =>
    new Promise<void>((resolve, reject) => {
      if (signal.aborted) return resolve();
      const worker = new Worker(new URL('./sweep-worker.ts', import.meta.url), { type: 'module' });
      workers.push(worker);
      signal.addEventListener('abort', () => resolve());
      const ask = () => {
        if (next >= asked.length) return resolve();
        worker.postMessage({ ...asked[next]!, index: next } satisfies SweepAsked);
        next += 1;
      };
      worker.addEventListener('message', ({ data }: MessageEvent<FromSweep>) => {
        if (signal.aborted) return;
        tell(data);
        ask();
      });
      worker.addEventListener('error', (event) => reject(new Error(event.message || t('lecture.eye.notLoaded'))));
      ask();
    });
  const cores = Math.max(1, Math.min(navigator.hardwareConcurrency || 1, asked.length));
  try {
    await Promise.all(Array.from({ length: cores }, work));
  } finally {
    for (const worker of workers) worker.terminate();
  }
}
