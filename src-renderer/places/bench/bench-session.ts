import type { HandCommand, Scenario, Vec2, WorldEvent, WorldView } from '../../../physics/index.ts';
import type { Stage } from '../../stage/stage.ts';
import { useSession } from '../../stores/session-store.ts';
import {
  askedTip,
  commandOf,
  type HandEvent,
  type HandState,
  handAfter,
  restingHand,
  type Seen,
} from '../../tools/hand.ts';
import { AttemptClient } from '../../worker/attempt-client.ts';
import type { FromWorker } from '../../worker/messages.ts';
import { offeredScenarios, scenarioOfFile } from './offered-scenarios.ts';

/** How often the cards are refreshed, ms. */
const REFRESH_ms = 100;
/** Longest time a frame may stand for, seconds: after a hidden tab the hand does not leap. */
const LONGEST_FRAME_s = 0.1;
const NOTHING_SEEN: Seen = { instrument: { tip_mm: [0, 0, 3], gripping: false }, tips: [] };

/** Where the hand waits before it has moved: a little inside the first incision's side. */
const RESTING_mm: Vec2 = [0.6, -1.2];

/** Runs one bench: owns the worker and the hand, passes views to the stage, and refreshes the store. */
export class BenchSession {
  #client: AttemptClient;
  #hand: HandState = restingHand(RESTING_mm);
  #stage: Stage | null = null;
  #view: WorldView | null = null;
  #events: WorldEvent[] = [];
  #pace = 1;
  #refreshed_ms = 0;
  #frame_ms = 0;

  constructor() {
    const { scenarios, problems } = offeredScenarios();
    useSession.setState({ scenarios, problems });
    this.#client = this.#open();
    if (scenarios[0] !== undefined) this.#client.start(scenarios[0]);
  }

  get view(): WorldView | null {
    return this.#view;
  }

  get hand(): HandState {
    return this.#hand;
  }

  /** Where the hand asks the tip to be, eye frame, mm. */
  get asked_mm(): Vec2 {
    return askedTip(this.#hand);
  }

  choose(scenario: Scenario): void {
    this.#renewAfterFault();
    this.#client.start(scenario);
  }

  /** Lets the person choose a scenario file; a file with problems changes nothing but the list of problems. */
  async openFile(): Promise<void> {
    const host = window.rimwardHost;
    if (host === undefined) return;
    const unopened = (fault: unknown) => [fault instanceof Error ? fault.message : 'the file could not be opened'];
    try {
      const file = await host.openTextFile();
      if (file === null) return;
      const { scenario, problems } = scenarioOfFile(file.text, file.name);
      useSession.setState({ problems });
      if (scenario === null) return;
      const others = useSession.getState().scenarios.filter((one) => one.id !== scenario.id);
      useSession.setState({ scenarios: [...others, scenario] });
      this.choose(scenario);
    } catch (fault) {
      useSession.setState({ problems: unopened(fault) });
    }
  }

  startOver(): void {
    const { scenario } = useSession.getState();
    if (scenario !== null) this.choose(scenario);
  }

  bringBack(): void {
    if (useSession.getState().canBringBack) this.#client.bringBack();
  }

  pause(paused: boolean): void {
    useSession.setState({ paused });
    this.#client.pause(paused);
  }

  /** Something the hand did. The first deed starts the clock. */
  act(event: HandEvent): void {
    const { paused, result } = useSession.getState();
    this.#hand = handAfter(this.#hand, event, this.#seen);
    if (paused || result !== null) return;
    if (event.kind !== 'pass' && !useSession.getState().handSeen) useSession.setState({ handSeen: true });
    if (useSession.getState().handSeen) this.#client.ask(commandOf(this.#hand, this.#seen));
  }

  nextIncision(): void {
    const count = useSession.getState().scenario?.incisions.length ?? 1;
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
    if (!useSession.getState().paused) this.act({ kind: 'pass', dt_s });
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

  #renewAfterFault(): void {
    if (useSession.getState().fault === null) return;
    this.#client.close();
    this.#client = this.#open();
  }

  #heard(message: FromWorker): void {
    if (message.kind === 'fault') {
      useSession.setState({ fault: message.message });
      return;
    }
    if (message.kind === 'began') this.#began(message);
    if (message.attempt !== useSession.getState().attempt) return;
    if (message.kind === 'view') this.#viewed(message.view, message.pace);
    if (message.kind === 'ended') this.#ended(message);
  }

  #began(message: Extract<FromWorker, { kind: 'began' }>): void {
    const { scenario, geometry, attempt, broughtBack } = message;
    const before = useSession.getState();
    const instrument = scenario.start.kind === 'flap' ? 'forceps' : 'needle';
    this.#hand = restingHand(
      this.#hand.pointer_mm,
      instrument,
      Math.min(this.#hand.incision, scenario.incisions.length - 1),
    );
    this.#view = null;
    this.#events = [];
    this.#stage?.forget();
    useSession.setState({
      scenario,
      geometry,
      attempt,
      view: null,
      events: [],
      pace: 1,
      paused: false,
      handSeen: false,
      canBringBack: !broughtBack && before.handSeen,
      result: null,
      fault: null,
      kept: null,
    });
  }

  #viewed(view: WorldView, pace: number): void {
    this.#view = view;
    this.#pace = pace;
    this.#stage?.receive(view, performance.now());
    if (view.events.length > 0) this.#events = [...this.#events, ...view.events];
    if (view.phase === 'ended') this.#refresh();
    if (view.events.some((event) => event.kind === 'tear-starts')) useSession.setState({ canBringBack: false });
  }

  #ended({ result, commands }: Extract<FromWorker, { kind: 'ended' }>): void {
    this.#events = [...result.events];
    useSession.setState({ result, events: this.#events });
    this.#refresh();
    const { scenario, attempt } = useSession.getState();
    const host = window.rimwardHost;
    if (host === undefined || scenario === null) return;
    const tell = (kept: string) => {
      if (useSession.getState().attempt === attempt) useSession.setState({ kept });
    };
    const { seed, modelVersion, digest } = result;
    host
      .keepAttempt({ rimwardAttempt: 1, scenario, seed, modelVersion, commands, digest })
      .then((name) => tell(`Attempt kept as ${name}`))
      .catch((fault: unknown) =>
        tell(`Attempt not kept: ${fault instanceof Error ? fault.message : 'unknown reason'}`),
      );
  }

  #refresh(now_ms = performance.now()): void {
    this.#refreshed_ms = now_ms;
    const { doing, instrument, incision, hoverLift_mm, holdLift_mm } = this.#hand;
    const lift_mm = doing === 'hovering' ? hoverLift_mm : holdLift_mm;
    useSession.setState({
      view: this.#view,
      events: this.#events,
      pace: this.#pace,
      hand: { doing, instrument, incision, lift_mm },
    });
  }
}
