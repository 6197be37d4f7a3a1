import { createStore, type StoreApi } from 'zustand/vanilla';
import {
  type AttemptResult,
  STEP_S,
  type StageGeometry,
  type WorldEvent,
  type WorldView,
} from '../../../../physics/index.ts';
import type { Stage } from '../../../stage/stage.ts';
import { ReplayClient } from '../../../worker/replay-client.ts';
import { ReplayFrames } from '../../../worker/replay-frames.ts';
import type { FromReplay, Replayed } from '../../../worker/replay-messages.ts';

/** How often the numbers beside the stage are refreshed while playing, ms. */
const REFRESH_ms = 100;
/** Longest time a drawn frame may stand for, s: after a hidden tab the replay does not leap. */
const LONGEST_FRAME_s = 0.1;

export const SPEEDS = [0.1, 0.25, 0.5, 1, 2, 4] as const;

export interface ReplayState {
  readonly phase: 'computing' | 'done' | 'stopped' | 'fault';
  /** Steps computed, of how many. */
  readonly done: number;
  readonly of: number;
  /** Steps between two frames kept. */
  readonly every: number;
  readonly geometry: StageGeometry | null;
  readonly view: WorldView | null;
  /** Where the playhead stands, steps. */
  readonly step: number;
  readonly playing: boolean;
  readonly speed: number;
  readonly events: readonly WorldEvent[];
  readonly result: AttemptResult | null;
  readonly fault: string | null;
}

/** Computes an attempt again and shows any moment of it. Frames can be looked at while later ones are still computed. */
export class ReplayPlayer {
  readonly store: StoreApi<ReplayState>;
  readonly #frames = new ReplayFrames();
  readonly #client: ReplayClient;
  #stage: Stage | null = null;
  #shown: WorldView | null = null;
  #head = 0;
  #frame_ms = 0;
  #refreshed_ms = 0;

  /**
   * @param from_step where the playhead goes as soon as that moment is computed
   * @param ended is told the result when the last command has been played
   */
  constructor(replayed: Replayed, from_step: number, ended: (result: AttemptResult) => void) {
    this.store = createStore<ReplayState>(() => ({
      phase: 'computing',
      done: 0,
      of: replayed.commands.length,
      every: 1,
      geometry: null,
      view: null,
      step: 0,
      playing: false,
      speed: 1,
      events: [],
      result: null,
      fault: null,
    }));
    this.#head = from_step;
    this.#client = new ReplayClient(replayed, true, (message) => this.#heard(message, ended));
  }

  show(stage: Stage | null): void {
    this.#stage = stage;
    if (stage !== null && this.#shown !== null) stage.receive(this.#shown, performance.now());
  }

  close(): void {
    this.#client.close();
    this.#stage = null;
  }

  /** Stops computing; what has been computed can still be looked at. */
  stopComputing(): void {
    this.#client.close();
    this.store.setState({ phase: 'stopped' });
  }

  seek(step: number): void {
    this.#head = Math.max(0, step);
    this.#present(performance.now(), true);
  }

  /** So many kept frames on or back. */
  nudge(frames: number): void {
    this.store.setState({ playing: false });
    this.seek(this.#frames.stepFrom(this.#head, frames));
  }

  play(playing: boolean): void {
    // from the end it begins anew
    if (playing && this.#head >= this.#frames.lastStep && this.store.getState().phase !== 'computing') this.seek(0);
    this.store.setState({ playing });
  }

  setSpeed(speed: number): void {
    this.store.setState({ speed });
  }

  /** To be called once a drawn frame. */
  frame(now_ms: number): void {
    const { playing, speed } = this.store.getState();
    const passed_s = Math.min(LONGEST_FRAME_s, Math.max(0, (now_ms - this.#frame_ms) / 1000));
    this.#frame_ms = now_ms;
    if (!playing) return;
    this.#head += (passed_s * speed) / STEP_S;
    if (this.#head >= this.#frames.lastStep) {
      this.#head = this.#frames.lastStep;
      if (this.store.getState().phase !== 'computing') this.store.setState({ playing: false });
    }
    const due = now_ms - this.#refreshed_ms >= REFRESH_ms || !this.store.getState().playing;
    this.#present(now_ms, due);
  }

  #present(now_ms: number, tell: boolean): void {
    const view = this.#frames.at(this.#head);
    if (view === null) return;
    if (view !== this.#shown) {
      const { playing } = this.store.getState();
      // a jump is shown at once; only a running replay is blended from frame to frame
      if (!playing || this.#shown === null || view.step < this.#shown.step) this.#stage?.forget();
      this.#stage?.receive(view, now_ms);
      this.#shown = view;
    }
    if (!tell) return;
    this.#refreshed_ms = now_ms;
    this.store.setState({ view, step: view.step });
  }

  #heard(message: FromReplay, ended: (result: AttemptResult) => void): void {
    if (message.kind === 'began') this.store.setState({ geometry: message.geometry });
    if (message.kind === 'progress') this.store.setState({ done: message.done, every: this.#frames.every });
    if (message.kind === 'fault') this.store.setState({ phase: 'fault', fault: message.message });
    if (message.kind === 'frame') this.#take(message.view);
    if (message.kind !== 'ended') return;
    const { of } = this.store.getState();
    const { result } = message;
    this.store.setState({ phase: 'done', done: of, result, events: result.events, every: this.#frames.every });
    this.#client.close();
    ended(result);
  }

  #take(view: WorldView): void {
    if (this.#frames.add(view)) this.#client.thin(this.#frames.every);
    if (view.events.length > 0) {
      this.store.setState(({ events }) => ({ events: [...events, ...view.events] }));
    }
    const first = this.#shown === null;
    if (first || (this.#shown!.step < this.#head && view.step <= this.#head)) this.#present(performance.now(), true);
  }
}
