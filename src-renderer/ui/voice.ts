/** When the stage speaks. No clock of its own: time is told to it, so that it can be tested. */

/** Between two things said, at least, ms: faster than this nobody listens. Our choice. */
export const GAP_ms = 2000;
/** Between two tellings of where the tip is while it tears, ms. Our choice. */
export const TIP_EVERY_ms = 6000;
/** Of events that pile up in the meantime only the last ones are said. Our choice. */
const MOST_EVENTS = 3;

/** What is known at a moment. */
export interface VoiceMoment {
  readonly now_ms: number;
  /** Where the tip is and how hard it is driven, in words. */
  readonly words: string;
  /** Length torn so far, mm; the tip is told again only where it has grown. */
  readonly torn_mm: number;
}

export class Voice {
  #said_ms = Number.NEGATIVE_INFINITY;
  #tipSaid_ms = Number.NEGATIVE_INFINITY;
  #tornSaid_mm: number | null = null;
  #events: string[] = [];
  #asked = false;

  /** Something happened that is worth saying. */
  happened(words: string): void {
    this.#events = [...this.#events, words].slice(-MOST_EVENTS);
  }

  /** The person wants to know where the tip is. */
  ask(): void {
    this.#asked = true;
  }

  /** Another attempt: nothing of the last one is said any more. */
  forget(): void {
    this.#events = [];
    this.#asked = false;
    this.#tornSaid_mm = null;
  }

  /** @returns what is to be said now, null for nothing; never two within GAP_ms */
  at({ now_ms, words, torn_mm }: VoiceMoment): string | null {
    // what was torn before anybody listened is no news
    this.#tornSaid_mm ??= torn_mm;
    if (now_ms - this.#said_ms < GAP_ms) return null;
    const tears = torn_mm > this.#tornSaid_mm && now_ms - this.#tipSaid_ms >= TIP_EVERY_ms;
    const tells = this.#asked || tears;
    const parts = [...this.#events, ...(tells ? [words] : [])];
    if (parts.length === 0) return null;
    this.#events = [];
    this.#asked = false;
    this.#said_ms = now_ms;
    if (tells) {
      this.#tipSaid_ms = now_ms;
      this.#tornSaid_mm = torn_mm;
    }
    return parts.map((part) => (/[.।!?]$/.test(part) ? part : `${part}.`)).join(' ');
  }
}
