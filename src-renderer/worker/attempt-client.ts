import type { HandCommand, Scenario } from '../../physics/index.ts';
import { AliveWatch, ASK_EVERY_ms } from './alive-watch.ts';
import type { AreYouThere, FromWorker, Here, Recorded, ToWorker } from './messages.ts';

/** The page's end of the physics worker. Sends only what has changed and never waits for an answer. */
export class AttemptClient {
  readonly #worker: Worker;
  readonly #watch = new AliveWatch();
  readonly #asking: number;
  #sent: HandCommand | null = null;
  #attempt = 0;

  constructor(heard: (message: FromWorker) => void) {
    this.#worker = new Worker(new URL('./physics-worker.ts', import.meta.url), { type: 'module' });
    this.#worker.addEventListener('message', ({ data }: MessageEvent<FromWorker | Here>) => {
      this.#watch.heard();
      if (data.kind === 'here') return;
      if (data.kind === 'began') {
        this.#attempt = data.attempt;
        this.#sent = null;
      }
      heard(data);
    });
    this.#worker.addEventListener('error', (event) =>
      heard({ kind: 'fault', message: event.message || 'the physics could not be loaded' }),
    );
    this.#asking = window.setInterval(() => {
      if (this.#watch.ask()) this.#post({ kind: 'are-you-there' });
      else {
        this.close();
        heard({ kind: 'fault', message: 'the physics does not answer any more' });
      }
    }, ASK_EVERY_ms);
  }

  /** @param recorded played silently first, with progress */
  start(scenario: Scenario, recorded?: Recorded): void {
    this.#post(recorded === undefined ? { kind: 'start', scenario } : { kind: 'start', scenario, recorded });
  }

  stopReplaying(): void {
    this.#post({ kind: 'stop-replaying' });
  }

  /** Ends the attempt in hand as it stands. */
  end(): void {
    this.#post({ kind: 'end', attempt: this.#attempt });
  }

  ask(command: HandCommand): void {
    const sent = this.#sent;
    const keys = Object.keys(command) as (keyof HandCommand)[];
    if (sent !== null && keys.every((key) => sent[key] === command[key])) return;
    this.#sent = command;
    this.#post({ kind: 'command', attempt: this.#attempt, command });
  }

  pause(paused: boolean): void {
    this.#post({ kind: 'pause', paused });
  }

  bringBack(): void {
    this.#post({ kind: 'bring-back' });
  }

  close(): void {
    window.clearInterval(this.#asking);
    this.#worker.terminate();
  }

  #post(message: ToWorker | AreYouThere): void {
    this.#worker.postMessage(message);
  }
}
