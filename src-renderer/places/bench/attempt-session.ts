import type { HandCommand, Scenario, Vec2, WorldEvent, WorldView } from '../../../physics/index.ts';
import type { AttemptPlace } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import type { Stage } from '../../stage/stage.ts';
import { handWays, useHands } from '../../stores/hands-store.ts';
import { usePeople } from '../../stores/people-store.ts';
import { createSessionStore, type SessionStore } from '../../stores/session-store.ts';
import { firstIncision } from '../../tools/first-incision.ts';
import {
  askedTip,
  commandOf,
  type HandEvent,
  type HandState,
  handAfter,
  rested,
  restingHand,
  type Seen,
  takenOver,
} from '../../tools/hand.ts';
import { AttemptClient } from '../../worker/attempt-client.ts';
import type { FromWorker, Recorded } from '../../worker/messages.ts';
import { AttemptRecords } from './attempt-records.ts';
import { ToldCommands } from './told-commands.ts';

/** How often the cards are refreshed, ms. */
const REFRESH_ms = 100;
/** Longest time a frame may stand for, seconds: after a hidden tab the hand does not leap. */
const LONGEST_FRAME_s = 0.1;
const NOTHING_SEEN: Seen = { instrument: { tip_mm: [0, 0, 3], gripping: false }, tips: [] };

/** Where the hand waits before it has moved: a little inside the first incision's side. */
const RESTING_mm: Vec2 = [0.6, -1.2];

/** Deeds that move what is held; they mean nothing while time stands still. */
const MOVING: ReadonlySet<HandEvent['kind']> = new Set(['point', 'move', 'lean', 'steer', 'pass']);

/**
 * One hand at one eye: owns the worker, passes views to the stage, refreshes the store of its place, and has attempts
 * kept. The same at the bench and in a trial; what a trial does not allow, it refuses here.
 */
export class AttemptSession {
  readonly store: SessionStore;
  readonly #trial: boolean;
  #records: AttemptRecords | null;
  #client: AttemptClient;
  #hand: HandState = restingHand(RESTING_mm);
  #stage: Stage | null = null;
  readonly #told = new ToldCommands();
  /** What is being played again after a fault, in case that fails too. */
  #again: Recorded | null = null;
  #view: WorldView | null = null;
  #events: WorldEvent[] = [];
  #pace = 1;
  #refreshed_ms = 0;
  #frame_ms = 0;
  #from: (() => string) | null = null;

  constructor(place: AttemptPlace) {
    this.store = createSessionStore(place);
    this.#trial = place === 'trial';
    this.#records = this.#newRecords();
    this.#client = this.#open();
  }

  get view(): WorldView | null {
    return this.#view;
  }

  /** Where the hand asks the tip to be, eye frame, mm. */
  get asked_mm(): Vec2 {
    return askedTip(this.#hand);
  }

  /**
   * Starts another attempt.
   * @param recorded what is played first; the hand goes on from there
   * @param from gives what that is, as a line in the language
   */
  choose(scenario: Scenario, recorded?: Recorded, from: (() => string) | null = null): void {
    if (this.store.getState().fault !== null) this.#renew();
    this.#from = from;
    if (recorded !== undefined) this.store.setState({ replaying: { done: 0, of: recorded.commands.length } });
    this.#client.start(scenario, recorded);
  }

  /**
   * After a fault: what the physics had told of the attempt is played in a new worker, and the hand goes on from there.
   * Not in a trial, whose time would stand still meanwhile.
   */
  goOn(): void {
    const { fault, scenario, attempt } = this.store.getState();
    const recorded = this.#again ?? this.#told.of(attempt);
    if (fault === null || scenario === null || recorded === null || this.#trial) return;
    this.#again = recorded;
    this.#client.close();
    this.#records?.carryOn();
    this.#told.forget();
    this.store.setState({ attempt: 0, fault: null, replaying: { done: 0, of: recorded.commands.length } });
    this.#client = this.#open();
    this.#from = () => t('bench.from.fault');
    this.#client.start(scenario, recorded);
  }

  startOver(): void {
    const { scenario } = this.store.getState();
    if (scenario !== null && !this.#trial) this.choose(scenario);
  }

  bringBack(): void {
    if (this.store.getState().canBringBack && !this.#trial) this.#client.bringBack();
  }

  stopReplaying(): void {
    this.#client.stopReplaying();
  }

  /** Whether the clock may be stopped here. */
  get #mayPause(): boolean {
    return !this.#trial || this.store.getState().scenario?.trial?.pause === true;
  }

  pause(paused: boolean): void {
    const { result, replaying, begun } = this.store.getState();
    if (!this.#mayPause || (this.#trial && !begun) || result !== null || replaying !== null) return;
    this.#hand = rested(this.#hand);
    this.store.setState({ paused, wasAway: false });
    this.#client.pause(paused);
  }

  /** The person has gone to another place; what runs stands still until they go on. */
  leave(): void {
    const { begun, paused, result } = this.store.getState();
    this.#hand = rested(this.#hand);
    if (!begun || paused || result !== null) return;
    this.pause(true);
    this.store.setState({ wasAway: true });
  }

  /** The countdown of a trial is over: time runs from now on, and the attempt is kept from its first step. */
  begin(): void {
    this.store.setState({ begun: true });
    this.#records?.keepPresent();
    this.#client.ask(commandOf(this.#hand, this.#seen));
  }

  /** Ends the attempt as it stands. */
  end(): void {
    this.#client.end();
  }

  note(line: string): void {
    this.store.setState((state) => ({ notes: [...state.notes, line] }));
  }

  /** Something the hand did. At the bench the first deed starts the clock. */
  act(event: HandEvent): void {
    const { paused, result, begun } = this.store.getState();
    if (paused && MOVING.has(event.kind)) return;
    this.#hand = handAfter(this.#hand, event, this.#seen);
    if (paused || result !== null) return;
    if (!this.#trial && event.kind !== 'pass' && !begun && this.#view !== null) this.store.setState({ begun: true });
    if (this.store.getState().begun) this.#client.ask(commandOf(this.#hand, this.#seen));
  }

  nextIncision(): void {
    const count = this.store.getState().scenario?.incisions.length ?? 1;
    this.act({ kind: 'enter-through', incision: (this.#hand.incision + 1) % count });
    this.#refresh();
  }

  take(instrument: HandCommand['instrument']): void {
    this.act({ kind: 'take', instrument });
    this.#refresh();
  }

  /** The stage that draws from now on; null when there is none. */
  show(stage: Stage | null): void {
    this.#stage = stage;
    if (stage !== null && this.#view !== null) stage.receive(this.#view, performance.now());
  }

  /** To be called for every frame that is drawn. */
  frame(now_ms: number): void {
    const dt_s = Math.min(LONGEST_FRAME_s, Math.max(0, (now_ms - this.#frame_ms) / 1000));
    this.#frame_ms = now_ms;
    this.act({ kind: 'pass', dt_s, ways: handWays(this.#trial ? 'trial' : 'bench') });
    if (now_ms - this.#refreshed_ms >= REFRESH_ms) this.#refresh(now_ms);
  }

  close(): void {
    this.#client.close();
  }

  get #seen(): Seen {
    return this.#view ?? NOTHING_SEEN;
  }

  #open(): AttemptClient {
    return new AttemptClient((message) => this.#heard(message));
  }

  /** Attempts of a worker that failed stay in the store as far as they came; they are offered at the next start. */
  #renew(): void {
    this.#client.close();
    this.#told.forget();
    this.#again = null;
    this.#records = this.#newRecords();
    this.store.setState({ attempt: 0 });
    this.#client = this.#open();
  }

  #newRecords(): AttemptRecords | null {
    const host = window.rimwardHost;
    if (host === undefined) return null;
    const person = () => usePeople.getState().current?.id ?? null;
    const records: AttemptRecords = new AttemptRecords(
      host,
      this.store.getState().place,
      person,
      (attempt, keeping) => {
        if (records === this.#records && attempt === this.store.getState().attempt) this.store.setState({ keeping });
      },
    );
    return records;
  }

  #heard(message: FromWorker): void {
    if (message.kind === 'fault') {
      this.store.setState({ fault: message.message, replaying: null });
      return;
    }
    this.#told.heard(message);
    if (message.kind === 'began') this.#began(message);
    this.#records?.heard(message);
    if (message.kind === 'replaying') this.store.setState({ replaying: { done: message.done, of: message.of } });
    if (message.kind === 'replay-stopped') this.#replayStopped();
    if (message.attempt !== this.store.getState().attempt) return;
    if (message.kind === 'view') this.#viewed(message.view, message.pace);
    if (message.kind === 'ended') {
      this.#events = [...message.result.events];
      this.store.setState({ result: message.result, moments: message.moments, events: this.#events });
      this.#refresh();
    }
  }

  /** The attempt before stood still meanwhile, and goes on only when the person says so. */
  #replayStopped(): void {
    this.store.setState({ replaying: null });
    this.pause(this.store.getState().begun);
  }

  #began({ scenario, geometry, attempt, broughtBack, lastAsked }: Extract<FromWorker, { kind: 'began' }>): void {
    this.#again = null;
    const before = this.store.getState();
    const instrument = scenario.start.kind === 'flap' ? 'forceps' : 'needle';
    this.#hand =
      lastAsked === null
        ? restingHand(
            this.#hand.pointer_mm,
            instrument,
            firstIncision(scenario.incisions, this.#hand.incision, useHands.getState().leftHanded),
          )
        : takenOver(lastAsked);
    this.#view = null;
    this.#events = [];
    this.#stage?.forget();
    this.store.setState({
      scenario,
      geometry,
      attempt,
      view: null,
      events: [],
      pace: 1,
      paused: false,
      wasAway: false,
      begun: false,
      canBringBack: !broughtBack && before.begun,
      result: null,
      moments: [],
      fault: null,
      keeping: { state: 'nothing-yet' },
      replaying: null,
      goesOnFrom: broughtBack ? null : this.#from,
      notes: [],
    });
  }

  #viewed(view: WorldView, pace: number): void {
    this.#view = view;
    this.#pace = pace;
    this.#stage?.receive(view, performance.now());
    if (view.events.length > 0) this.#events = [...this.#events, ...view.events];
    if (view.phase === 'ended') this.#refresh();
    if (view.events.some((event) => event.kind === 'tear-starts')) this.store.setState({ canBringBack: false });
  }

  #refresh(now_ms = performance.now()): void {
    this.#refreshed_ms = now_ms;
    const { doing, instrument, incision, hoverLift_mm, holdLift_mm } = this.#hand;
    const lift_mm = doing === 'hovering' ? hoverLift_mm : holdLift_mm;
    this.store.setState({
      view: this.#view,
      events: this.#events,
      pace: this.#pace,
      hand: { doing, instrument, incision, lift_mm },
    });
  }
}
