import { type HandCommand, STEP_S, type WorldView } from '../../../../physics/index.ts';
import { handWays } from '../../../stores/hands-store.ts';
import type { HandEvent } from '../../../tools/hand.ts';
import type { TwinLink } from '../../../worker/twin-client.ts';
import type { FromTwin, PolarAnswer } from '../../../worker/twin-messages.ts';
import { SIDES, type SideId, type TwinControls, type TwinSetup, type TwinState } from '../contract.ts';
import { LiveHand } from './live-hand.ts';
import { TwinClock } from './twin-clock.ts';
import { TwinFrames } from './twin-frames.ts';
import { type TwinPicture, TwinSide } from './twin-side.ts';

/** Steps that are computed ahead of the moment shown, so that playing does not stutter. */
const AHEAD = 24;
/** Steps of the live hand that may be on their way: more would make the hand feel late. */
const ON_THE_WAY = 4;
/** How often the numbers beside the stages are refreshed while playing, ms. */
const REFRESH_ms = 80;

/** What the engine needs of the page; tests give it eyes without workers. */
export interface TwinSurroundings {
  open(heard: (message: FromTwin) => void): TwinLink;
  tell(state: Partial<TwinState>): void;
  now_ms(): number;
  /** The driving force by direction at a step of a run has come. */
  polar?(side: SideId, run: number, step: number, answer: PolarAnswer): void;
}

/**
 * Two eyes in lockstep under one stream of commands. A moment counts once both eyes have computed it, and only such
 * moments are shown: neither eye is ever seen at a step that the other has not reached.
 */
export class TwinEngine implements TwinControls {
  readonly #around: TwinSurroundings;
  readonly #links: Partial<Record<SideId, TwinLink>> = {};
  readonly #pictures: Partial<Record<SideId, TwinPicture>> = {};
  readonly #canvases: Partial<Record<SideId, HTMLCanvasElement>> = {};
  readonly #frames = new TwinFrames();
  readonly #clock = new TwinClock();
  #sides: Partial<Record<SideId, TwinSide>> = {};
  #setup: TwinSetup | null = null;
  #run = 0;
  #commands: HandCommand[] = [];
  /** Commands that each eye has been given, or has given itself. */
  #asked = 0;
  #live: LiveHand | null = null;
  #handDone = false;
  /** Last step that both eyes have computed; -1 before both have begun. */
  #counted = -1;
  #shownStep = -1;
  #told_ms = 0;
  #frame_ms = 0;

  constructor(around: TwinSurroundings) {
    this.#around = around;
  }

  start(setup: TwinSetup): void {
    this.#begin(setup, []);
  }

  restart(): void {
    if (this.#setup !== null) this.#begin(this.#setup, []);
  }

  /** From the moment shown on, the hand is the person's own; what was computed after it is dropped. */
  takeOver(): void {
    if (this.#setup === null) return;
    this.#begin({ ...this.#setup, hand: { kind: 'live' } }, this.#commands.slice(0, Math.max(0, this.#shownStep)));
  }

  play(playing: boolean): void {
    if (playing && this.ended && this.#clock.loop === null && this.#clock.head >= this.lastStep) this.#clock.head = 0;
    this.#clock.playing = playing;
    this.#present(true);
  }

  seek(step: number): void {
    this.#clock.jump(Math.max(0, Math.min(this.lastStep, Math.round(step))));
    this.#present(true);
  }

  nudge(steps: number): void {
    const every = Math.abs(steps) === 1 ? Math.sign(steps) * this.#frames.every : steps;
    const wanted = Math.max(0, this.#shownStep + every);
    this.#clock.playing = false;
    if (wanted <= this.lastStep) this.#clock.jump(wanted);
    else if (!this.#clock.held && !this.ended) this.#clock.wish = wanted;
    this.#askFor(wanted);
    this.#present(true);
  }

  setSpeed(speed: number): void {
    this.#clock.speed = Math.min(1, Math.max(0.1, speed));
    this.#present(true);
  }

  setLoop(loop: TwinState['loop']): void {
    this.#clock.loop = loop === null || loop.to <= loop.from ? null : loop;
    this.#present(true);
  }

  hold(held: boolean): void {
    this.#clock.hold(held);
    this.#present(true);
  }

  frames(side: SideId, from = 0, to = this.lastStep): readonly WorldView[] {
    return this.#frames.between(side, from, Math.min(to, this.lastStep));
  }

  /** What moved the instrument so far, one per step: played again in the same eye it gives the same tear. */
  commands(): readonly HandCommand[] {
    return this.#commands.slice(0, this.lastStep);
  }

  canvas(side: SideId): HTMLCanvasElement | null {
    return this.#canvases[side] ?? null;
  }

  /** The picture of an eye and its canvas, or null when it is gone. */
  show(side: SideId, picture: TwinPicture | null, canvas: HTMLCanvasElement | null): void {
    if (picture === null || canvas === null) {
      delete this.#pictures[side];
      delete this.#canvases[side];
      return;
    }
    this.#pictures[side] = picture;
    this.#canvases[side] = canvas;
    const shown = this.#sides[side]?.shown ?? null;
    if (shown !== null) picture.receive(shown, this.#around.now_ms());
  }

  /** Something the live hand did over either eye; the same for both. */
  act(event: HandEvent): void {
    this.#live?.act(event, this.#sides.left?.shown ?? null);
    if (event.kind === 'take') this.#tell();
  }

  /** To be called once a drawn frame. */
  frame(now_ms: number): void {
    const passed_s = Math.max(0, (now_ms - this.#frame_ms) / 1000);
    this.#frame_ms = now_ms;
    const due = this.#clock.pass(passed_s, this.lastStep, this.#live !== null, this.ended);
    if (this.#live !== null) this.#workLive(due);
    else if (this.#clock.playing) this.#askFor(this.#clock.wantedStep + AHEAD);
    if (this.ended && this.#clock.loop === null && this.#clock.head >= this.lastStep) this.#clock.playing = false;
    this.#present(false);
  }

  /** Counts the pairs started; a number that comes again is the same pair. */
  get run(): number {
    return this.#run;
  }

  /** Has both eyes try the directions round their tips at a computed step; null takes that back. */
  askPolar(step: number | null): void {
    for (const { link } of this.#eyes) link.post({ kind: 'polar', run: this.#run, step });
  }

  /** Tells everything once more, in words that may be others now. */
  retell(): void {
    this.#tell();
  }

  /** What an eye shows now. */
  shown(side: SideId): WorldView | null {
    return this.#sides[side]?.shown ?? null;
  }

  get shownStep(): number {
    return Math.max(0, this.#shownStep);
  }

  /** The last step that may be shown. */
  get lastStep(): number {
    const computed = Math.max(0, this.#counted);
    return this.#clock.held ? Math.min(this.#clock.heldAt, computed) : computed;
  }

  get ended(): boolean {
    const sides = this.#eyes;
    if (sides.length === 0) return false;
    return sides.every(({ ended }) => ended) || (this.#handDone && this.#counted >= this.#commands.length);
  }

  /** What the hand works with at the moment shown. */
  get #instrument(): HandCommand['instrument'] {
    return this.#live?.instrument ?? this.#sides.left?.shown?.instrument.kind ?? 'forceps';
  }

  get #eyes(): readonly TwinSide[] {
    return SIDES.flatMap((side) => this.#sides[side] ?? []);
  }

  #begin(setup: TwinSetup, before: readonly HandCommand[]): void {
    this.#run += 1;
    this.#setup = setup;
    this.#frames.clear();
    this.#clock.restart(before.length);
    this.#commands = [...before];
    this.#asked = before.length;
    this.#counted = -1;
    this.#shownStep = -1;
    this.#handDone = false;
    this.#live = setup.hand.kind === 'live' ? new LiveHand(setup.left.scenario, before.at(-1) ?? null) : null;
    this.#sides = {};
    // both are there before either can answer
    for (const side of SIDES) {
      const eye = setup[side];
      if (eye !== null) this.#sides[side] = new TwinSide(eye.label, eye.scenario, this.#link(side));
      this.#pictures[side]?.forget();
    }
    const hand = setup.hand.kind === 'program' ? setup.hand.hand : null;
    for (const { scenario, link } of this.#eyes) {
      const leads = link === this.#sides.left?.link;
      link.post({ kind: 'start', run: this.#run, scenario, seed: setup.seed, hand: leads ? hand : null });
      if (before.length > 0) link.post({ kind: 'commands', run: this.#run, commands: before });
    }
    this.#tell();
  }

  #link(side: SideId): TwinLink {
    let link = this.#links[side];
    if (link === undefined) {
      link = this.#around.open((message) => this.#heard(side, message));
      this.#links[side] = link;
    }
    return link;
  }

  #heard(from: SideId, message: FromTwin): void {
    const side = this.#sides[from];
    if (side === undefined || message.run !== this.#run) return;
    if (message.kind === 'polar') {
      this.#around.polar?.(from, message.run, message.step, message);
      return;
    }
    if (!side.hear(message)) {
      this.#clock.playing = false;
      this.#links[from]?.close();
      delete this.#links[from];
      this.#tell();
    }
    if (message.kind === 'hand-done') this.#handDone = true;
    if (message.kind === 'stepped' && this.#setup?.hand.kind === 'program' && from === 'left') {
      this.#commands.push(message.command);
      this.#sides.right?.link.post({ kind: 'commands', run: this.#run, commands: [message.command] });
    }
    this.#count();
  }

  /** Counts what both eyes have come to. */
  #count(): void {
    const { left, right } = this.#sides;
    if (left === undefined) return;
    if (this.#counted < 0) {
      if (left.first === null || (right !== undefined && right.first === null)) return;
      this.#counted = 0;
      this.#countMoment(left.first, right?.first ?? null);
      this.#present(true);
    }
    while (left.ahead.length > 0 && (right === undefined || right.ahead.length > 0)) {
      this.#counted += 1;
      this.#countMoment(left.ahead.shift() ?? null, right?.ahead.shift() ?? null);
    }
    if (this.#clock.arrived(this.lastStep)) this.#present(true);
  }

  #countMoment(left: TwinSide['first'], right: TwinSide['first']): void {
    if (left !== null) this.#sides.left?.count(left);
    if (right !== null) this.#sides.right?.count(right);
    this.#frames.add(left?.view ?? null, right?.view ?? null);
  }

  /** Has the eyes compute up to a step, where the hand is not a live one. */
  #askFor(steps: number): void {
    const hand = this.#setup?.hand;
    if (hand === undefined || this.#clock.held) return;
    if (hand.kind === 'live') {
      if (steps > this.lastStep) this.#workLive(1);
      return;
    }
    if (hand.kind === 'program') {
      if (steps > this.#asked) this.#sides.left?.link.post({ kind: 'allow', run: this.#run, steps });
      this.#asked = Math.max(this.#asked, steps);
      return;
    }
    const commands = hand.commands.slice(this.#asked, steps);
    if (commands.length > 0) this.#give(commands);
    this.#handDone = this.#asked >= hand.commands.length;
  }

  /** Steps of the live hand that wall time asks for; what the eyes cannot keep up with is dropped. */
  #workLive(due: number): void {
    if (this.#live === null || this.#clock.held) return;
    const seen = this.#sides.left?.shown ?? null;
    if (due > 0) this.#live.act({ kind: 'pass', dt_s: due * STEP_S, ways: handWays('lecture') }, seen);
    if (!this.#live.begun || this.ended || this.#counted < 0) return;
    const room = Math.min(due, ON_THE_WAY - (this.#asked - this.#counted));
    for (let i = 0; i < room; i++) this.#give([this.#live.command(seen)]);
  }

  #give(commands: readonly HandCommand[]): void {
    this.#commands.push(...commands);
    this.#asked += commands.length;
    for (const { link } of this.#eyes) link.post({ kind: 'commands', run: this.#run, commands });
  }

  /** Shows the moment of the clock in both eyes. */
  #present(tell: boolean): void {
    if (this.#counted < 0) return;
    const now_ms = this.#around.now_ms();
    const step = this.#frames.keptStep(this.#clock.head, this.lastStep);
    if (step !== this.#shownStep) {
      const running = this.#clock.playing && step > this.#shownStep && step - this.#shownStep < 12;
      this.#shownStep = step;
      for (const side of SIDES) this.#showSide(side, step, now_ms, running);
    }
    if (tell || now_ms - this.#told_ms >= REFRESH_ms) this.#tell();
  }

  #showSide(id: SideId, step: number, now_ms: number, running: boolean): void {
    const side = this.#sides[id];
    const view = this.#frames.at(id, step);
    if (side === undefined || view === null || view === side.shown) return;
    side.shown = view;
    const picture = this.#pictures[id];
    // a jump is shown at once; only what runs is blended from step to step
    if (!running) picture?.forget();
    picture?.receive(view, now_ms, (1000 * STEP_S * this.#frames.every) / this.#clock.speed);
  }

  #tell(): void {
    this.#told_ms = this.#around.now_ms();
    const last = this.lastStep;
    const { playing, speed, loop, held } = this.#clock;
    this.#around.tell({
      setup: this.#setup,
      left: this.#sides.left?.state(last) ?? null,
      right: this.#sides.right?.state(last) ?? null,
      step: Math.max(0, this.#shownStep),
      lastStep: last,
      playing,
      speed,
      loop,
      held,
      ended: this.ended,
      instrument: this.#instrument,
    });
  }
}
