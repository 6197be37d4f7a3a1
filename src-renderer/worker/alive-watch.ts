/** How often the physics is asked whether it is there, ms. */
export const ASK_EVERY_ms = 1000;

/**
 * Questions in a row that may stay without any word: a slow machine prepares an eye for several seconds without listening
 * (assumed, 10 to 30).
 */
const MOST_UNANSWERED = 20;

/**
 * Notices that a worker is gone. A browser says when a script fails, but nothing when the thread is ended from outside
 * or runs out of memory. It counts questions, not time: a machine that slept asked none meanwhile.
 */
export class AliveWatch {
  #unanswered = 0;

  /** To be called before each question. @returns false when there is nobody any more */
  ask(): boolean {
    this.#unanswered += 1;
    return this.#unanswered <= MOST_UNANSWERED;
  }

  /** Any word from the worker. */
  heard(): void {
    this.#unanswered = 0;
  }
}
