import type { FromReplay, ReplayEnd, Replayed, ToReplay } from './replay-messages.ts';

/** The page's end of a replay: a worker of its own, ended with it. */
export class ReplayClient {
  readonly #worker: Worker;

  constructor(replayed: Replayed, frames: boolean, heard: (message: FromReplay) => void) {
    this.#worker = new Worker(new URL('./replay-worker.ts', import.meta.url), { type: 'module' });
    this.#worker.addEventListener('message', ({ data }: MessageEvent<FromReplay>) => heard(data));
    this.#worker.addEventListener('error', (event) =>
      heard({ kind: 'fault', message: event.message || 'the physics could not be loaded' }),
    );
    const { scenario, seed, commands } = replayed;
    this.#post({ kind: 'start', scenario, seed, commands, frames });
  }

  thin(every: number): void {
    this.#post({ kind: 'thin', every });
  }

  /** Stops it wherever it is. */
  close(): void {
    this.#worker.terminate();
  }

  #post(message: ToReplay): void {
    this.#worker.postMessage(message);
  }
}

/** Plays an attempt again without looking at it. Rejects when the physics fails or the signal stops it. */
export function replayToEnd(
  replayed: Replayed,
  signal: AbortSignal,
  tellProgress: (share: number) => void,
): Promise<ReplayEnd> {
  return new Promise((resolve, reject) => {
    const client = new ReplayClient(replayed, false, (message) => {
      if (message.kind === 'progress') tellProgress(message.done / Math.max(1, message.of));
      if (message.kind === 'fault') {
        client.close();
        reject(new Error(message.message));
      }
      if (message.kind === 'ended') {
        client.close();
        resolve({ result: message.result, moments: message.moments });
      }
    });
    signal.addEventListener('abort', () => {
      client.close();
      reject(new Error('stopped'));
    });
  });
}
