import { type AttemptResult, MODEL_VERSION, type WorldEventKind, type WorldView } from '../../../physics/index.ts';
import type { AttemptPlace } from '../../../src-main/ipc/contract.ts';
import { AttemptKeeper, type Keeping, type KeepingStore } from '../../stores/attempt-keeper.ts';
import type { FromWorker } from '../../worker/messages.ts';

/**
 * From the first of these on there is something in an attempt that somebody may want to see again. Hovering over an eye
 * is not: an attempt that was only looked at is never offered as interrupted.
 */
const WORTH_KEEPING: ReadonlySet<WorldEventKind> = new Set([
  'grasp',
  'grasp-missed',
  'puncture',
  'refill',
  'tear-starts',
]);

const tore = (events: AttemptResult['events']): boolean => events.some((event) => event.kind === 'tear-starts');

/**
 * Which attempts of this session go into the store, and when each is closed. An attempt that made room for the next one
 * stays open for as long as it can be brought back; then it is closed as it stands, or removed when nothing was torn.
 */
export class AttemptRecords {
  readonly #store: KeepingStore;
  readonly #place: AttemptPlace;
  readonly #person: () => string | null;
  readonly #tell: (attempt: number, keeping: Keeping) => void;
  readonly #keepers = new Map<number, AttemptKeeper>();
  readonly #aside = new Map<number, AttemptResult>();
  #present = 0;
  /** Keeps the attempt that a new worker is playing again. */
  #carried: AttemptKeeper | null = null;

  constructor(
    store: KeepingStore,
    place: AttemptPlace,
    person: () => string | null,
    tell: (attempt: number, keeping: Keeping) => void,
  ) {
    this.#store = store;
    this.#place = place;
    this.#person = person;
    this.#tell = tell;
  }

  heard(message: FromWorker): void {
    if (message.kind === 'began') this.#began(message);
    if (message.kind === 'commands') this.#keepers.get(message.attempt)?.add(message.fromStep, message.commands);
    if (message.kind === 'view') this.#viewed(message.attempt, message.view);
    if (message.kind === 'laid-aside') this.#aside.set(message.attempt, message.result);
    if (message.kind === 'ended') this.#finish(message.attempt, message.result);
  }

  /** Keeps the attempt in hand from now on, whatever happens in it. */
  keepPresent(): void {
    this.#keepers.get(this.#present)?.keep();
  }

  /**
   * The worker is gone. The next attempt heard of is the present one, played again by a new worker: it stays one attempt
   * in the store. Those before it can be brought back no more.
   */
  carryOn(): void {
    this.#settle(() => true);
    this.#carried = this.#keepers.get(this.#present) ?? this.#carried;
    this.#keepers.clear();
    this.#present = 0;
  }

  #tellOf(keeper: AttemptKeeper, keeping: Keeping): void {
    for (const [attempt, one] of this.#keepers) if (one === keeper) this.#tell(attempt, keeping);
  }

  #began({ attempt, scenario, seed, broughtBack }: Extract<FromWorker, { kind: 'began' }>): void {
    const before = this.#present;
    this.#present = attempt;
    if (broughtBack) this.#aside.delete(attempt);
    this.#settle((aside) => broughtBack || aside !== before);
    if (this.#keepers.has(attempt)) return;
    const keeper: AttemptKeeper =
      this.#carried ??
      new AttemptKeeper({
        store: this.#store,
        personId: this.#person,
        place: this.#place,
        scenario,
        seed,
        modelVersion: MODEL_VERSION,
        tell: (keeping) => this.#tellOf(keeper, keeping),
      });
    this.#carried = null;
    this.#keepers.set(attempt, keeper);
  }

  #viewed(attempt: number, { events }: WorldView): void {
    if (events.some(({ kind }) => WORTH_KEEPING.has(kind))) this.#keepers.get(attempt)?.keep();
    if (attempt === this.#present && tore(events)) this.#settle(() => true);
  }

  /** Closes or removes attempts that nobody can bring back any more. */
  #settle(which: (attempt: number) => boolean): void {
    for (const [attempt, result] of [...this.#aside]) {
      if (!which(attempt)) continue;
      this.#aside.delete(attempt);
      if (tore(result.events)) this.#finish(attempt, result);
      else {
        this.#keepers.get(attempt)?.remove();
        this.#keepers.delete(attempt);
      }
    }
  }

  #finish(attempt: number, result: AttemptResult): void {
    this.#keepers.get(attempt)?.finish(result);
  }
}
