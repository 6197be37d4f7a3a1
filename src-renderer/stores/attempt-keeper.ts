import type { AttemptResult, HandCommand, Scenario } from '../../physics/index.ts';
import type { AttemptPlace, AttemptStart, AttemptSummary, StoreHost } from '../../src-main/ipc/contract.ts';
import { faultText } from '../i18n/content.ts';
import { t } from '../i18n/text.ts';

/** Waits between two tries when the store does not answer, ms; the last one goes on for ever. */
const RETRY_ms = [500, 1000, 2000, 5000];
/** Commands given to the store in one call at most: two minutes of work. */
const MOST_AT_ONCE = 7200;

/** What the store must offer to keep an attempt. */
export type KeepingStore = Pick<StoreHost, 'beginAttempt' | 'appendCommands' | 'finishAttempt' | 'removeAttempt'>;

/** How it stands with keeping an attempt, for a line on the screen. */
export type Keeping =
  | { readonly state: 'nothing-yet' }
  | { readonly state: 'kept'; readonly id: string }
  | { readonly state: 'not-kept'; readonly why: string }
  | { readonly state: 'finished'; readonly summary: AttemptSummary };

export interface KeeperOf {
  readonly store: KeepingStore;
  /** Whose attempt it is, asked when the first of it goes in; null while nobody is known. */
  readonly personId: () => string | null;
  readonly place: AttemptPlace;
  readonly scenario: Scenario;
  readonly seed: number;
  readonly modelVersion: string;
  readonly tell: (keeping: Keeping) => void;
  /** Calls back after so many ms; a test gives its own. */
  readonly later?: (work: () => void, after_ms: number) => void;
}

/**
 * Keeps one attempt in the store as it happens: in order, one call at a time, trying again until the store takes it.
 * Nothing here ever waits for the store; what it has not taken is held until it does.
 */
export class AttemptKeeper {
  readonly #of: KeeperOf;
  readonly #later: (work: () => void, after_ms: number) => void;
  /** Not taken by the store yet. */
  #held: HandCommand[] = [];
  #taken = 0;
  #id: string | null = null;
  #worthKeeping = false;
  #end: { readonly result: AttemptResult } | 'remove' | null = null;
  #over = false;
  #busy = false;
  #failures = 0;

  constructor(of: KeeperOf) {
    this.#of = of;
    this.#later = of.later ?? ((work, after_ms) => void setTimeout(work, after_ms));
  }

  /**
   * Commands used since the last call. Held back until there is something worth keeping. What is told again, when an
   * attempt is played anew after a fault, is known already.
   */
  add(fromStep: number, commands: readonly HandCommand[]): void {
    if (this.#end !== null) return;
    const known = this.#taken + this.#held.length;
    if (fromStep > known) throw new Error(`commands from step ${fromStep} do not follow ${known} of them`);
    for (let k = known - fromStep; k < commands.length; k++) this.#held.push(commands[k] as HandCommand);
    this.#work();
  }

  /** From the first grasp, press or torn stretch on, the attempt is in the store. */
  keep(): void {
    if (this.#worthKeeping) return;
    this.#worthKeeping = true;
    this.#work();
  }

  /** The attempt is over; it is closed with its result once all its commands are in. */
  finish(result: AttemptResult): void {
    if (this.#end !== null) return;
    this.#end = { result };
    this.#worthKeeping = true;
    this.#work();
  }

  /** The attempt was given up with nothing in it that anybody would look for. */
  remove(): void {
    if (this.#end !== null) return;
    this.#end = 'remove';
    this.#held = [];
    this.#work();
  }

  #work(): void {
    if (this.#busy || this.#over) return;
    const next = this.#next();
    if (next === null) return;
    this.#busy = true;
    next().then(
      () => {
        this.#failures = 0;
        this.#busy = false;
        this.#work();
      },
      (fault: unknown) => this.#failed(fault),
    );
  }

  /** The next thing the store has to do; null when it is up to date. */
  #next(): (() => Promise<void>) | null {
    const { store, personId, place, scenario, seed, modelVersion } = this.#of;
    const id = this.#id;
    const end = this.#end;
    if (end === 'remove') return id === null ? null : () => this.#removed(id);
    if (!this.#worthKeeping) return null;
    if (id === null) {
      return async () => {
        const person = personId();
        if (person === null) throw new Error(t('common.keeping.nobody'));
        const start: AttemptStart = { personId: person, place, scenario, seed, modelVersion };
        this.#id = await store.beginAttempt(start);
      };
    }
    if (this.#held.length > 0) return () => this.#append(id);
    return end === null ? null : () => this.#finished(id, end.result);
  }

  async #append(id: string): Promise<void> {
    const some = this.#held.slice(0, MOST_AT_ONCE);
    await this.#of.store.appendCommands(id, this.#taken, some);
    this.#taken += some.length;
    this.#held.splice(0, some.length);
    if (this.#end === null) this.#of.tell({ state: 'kept', id });
  }

  async #finished(id: string, result: AttemptResult): Promise<void> {
    const summary = await this.#of.store.finishAttempt(id, result);
    this.#over = true;
    this.#of.tell({ state: 'finished', summary });
  }

  async #removed(id: string): Promise<void> {
    await this.#of.store.removeAttempt(id);
    this.#over = true;
  }

  #failed(fault: unknown): void {
    const wait_ms = RETRY_ms[Math.min(this.#failures, RETRY_ms.length - 1)] ?? 0;
    this.#failures += 1;
    this.#of.tell({ state: 'not-kept', why: fault instanceof Error ? faultText(fault) : t('common.keeping.noAnswer') });
    this.#later(() => {
      this.#busy = false;
      this.#work();
    }, wait_ms);
  }
}
