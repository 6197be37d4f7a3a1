/**
 * Turns wall time into steps. Simulated time follows wall time as far as the machine can; what it cannot is dropped,
 * never queued: the world then runs slower and `pace` says by how much.
 */
export class Pace {
  readonly #step_ms: number;
  readonly #mostSteps: number;
  #due_ms = 0;
  #last_ms: number | null = null;
  #pace = 1;

  /**
   * @param step_ms length of a step in wall time
   * @param mostSteps steps that may be caught up at once
   */
  constructor(step_ms: number, mostSteps: number) {
    this.#step_ms = step_ms;
    this.#mostSteps = mostSteps;
  }

  /** Simulated over wall time of the last second or so, 0 to 1. */
  get pace(): number {
    return this.#pace;
  }

  /** Forgets the wall clock, after a pause. */
  rest(): void {
    this.#last_ms = null;
    this.#due_ms = 0;
  }

  /** Steps that are due at this wall time. */
  dueAt(now_ms: number): number {
    const passed_ms = this.#last_ms === null ? 0 : Math.max(0, now_ms - this.#last_ms);
    this.#last_ms = now_ms;
    this.#due_ms += passed_ms;
    const due = Math.floor(this.#due_ms / this.#step_ms + 1e-9);
    const taken = Math.min(due, this.#mostSteps);
    this.#due_ms -= due * this.#step_ms;
    this.#average(taken * this.#step_ms, passed_ms, due > taken);
    return taken;
  }

  /** First-order mean with a time constant of half a second; a full catch-up counts as on time. */
  #average(simulated_ms: number, passed_ms: number, dropped: boolean): void {
    if (passed_ms <= 0) return;
    const now = dropped ? Math.min(1, simulated_ms / passed_ms) : 1;
    this.#pace += (now - this.#pace) * (1 - Math.exp(-passed_ms / 500));
  }
}
