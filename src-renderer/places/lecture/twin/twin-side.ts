import {
  type Scenario,
  type StageGeometry,
  stageGeometry,
  type WorldEvent,
  type WorldView,
} from '../../../../physics/index.ts';
import { textOf } from '../../../i18n/content.ts';
import type { TwinLink } from '../../../worker/twin-client.ts';
import type { FromTwin, TwinMoment } from '../../../worker/twin-messages.ts';
import type { SeriesPoint, TwinSideState } from '../contract.ts';

/** What draws one eye. */
export interface TwinPicture {
  /** @param gap_ms time over which the picture may pass from the view before to this one */
  receive(view: WorldView, at_ms: number, gap_ms?: number): void;
  forget(): void;
}

/** One eye of a pair as the page keeps it: what came of it, in order, and what shows it. */
export class TwinSide {
  readonly label: string;
  readonly scenario: Scenario;
  readonly link: TwinLink;
  readonly geometry: StageGeometry;
  first: TwinMoment | null = null;
  /** Computed moments that the other eye has not come to yet; null for steps after the end. */
  readonly ahead: (TwinMoment | null)[] = [];
  shown: WorldView | null = null;
  ended = false;
  fault: string | null = null;
  #series: SeriesPoint[] = [];
  #told: readonly SeriesPoint[] = [];
  #events: readonly WorldEvent[] = [];

  constructor(label: string, scenario: Scenario, link: TwinLink) {
    this.label = label;
    this.scenario = scenario;
    this.geometry = stageGeometry(scenario);
    this.link = link;
  }

  /** A message of this run. @returns false for a fault */
  hear(message: FromTwin): boolean {
    if (message.kind === 'began') this.first = message.first;
    if (message.kind === 'stepped') this.ahead.push(message.moment);
    if (message.kind === 'fault') this.fault = message.message;
    return this.fault === null;
  }

  /** Both eyes have come so far: the moment counts from now on. */
  count({ view, point }: TwinMoment): void {
    this.#series.push(point);
    if (view.events.length > 0) this.#events = [...this.#events, ...view.events];
    this.ended = view.phase === 'ended';
  }

  /** @param last nothing after this step is told of */
  state(last: number): TwinSideState {
    const { label, scenario, geometry, shown, fault } = this;
    const uncutTension_mN_per_mm = this.first?.view.chamber.tension_mN_per_mm ?? null;
    return {
      label: textOf(label),
      scenario,
      geometry,
      uncutTension_mN_per_mm,
      view: shown,
      series: this.#seriesTo(last),
      events: this.#eventsTo(last),
      fault,
    };
  }

  /** The series holds one point a step from step 0, so that its length says how far it goes. */
  #seriesTo(last: number): readonly SeriesPoint[] {
    const length = Math.min(this.#series.length, last + 1);
    if (length !== this.#told.length) this.#told = this.#series.slice(0, length);
    return this.#told;
  }

  #eventsTo(last: number): readonly WorldEvent[] {
    return (this.#events.at(-1)?.step ?? 0) <= last ? this.#events : this.#events.filter(({ step }) => step <= last);
  }
}
