import { describe, expect, it } from 'vitest';
import type { Hand, HandCommand, Scenario, WorldView } from '../../physics/index.ts';
import { offeredScenarios } from '../../src-renderer/places/bench/offered-scenarios.ts';
import type { SideId, TwinHand, TwinSetup, TwinState } from '../../src-renderer/places/lecture/contract.ts';
import { TwinEngine } from '../../src-renderer/places/lecture/twin/twin-engine.ts';
import { TwinFrames } from '../../src-renderer/places/lecture/twin/twin-frames.ts';
import type { TwinLink } from '../../src-renderer/worker/twin-client.ts';
import type { FromTwin, ToTwin } from '../../src-renderer/worker/twin-messages.ts';
import { type TwinDoor, TwinRun } from '../../src-renderer/worker/twin-run.ts';
import { type DrawnEye, drawnDoor } from '../support/view-fixture.ts';

const scenario = offeredScenarios().scenarios[0] as Scenario;
const MS_PER_STEP = 1000 / 60;
const hold = (x_mm: number): HandCommand => ({
  x_mm,
  y_mm: 0.5,
  lift_mm: 0.1,
  jaws: 1,
  instrument: 'forceps',
  incision: 0,
});
/** Stands for any guided hand: what it asks depends on what it sees. */
const HAND = { rimwardHand: 1, kind: 'guided', id: 'sees' } as Hand;

/** One eye by itself, worked off when the test says so, as a worker is by its own clock. */
class SlowEye implements TwinLink {
  readonly stepped: HandCommand[] = [];
  readonly #heard: (message: FromTwin) => void;
  #run: { readonly number: number; readonly eye: TwinRun<DrawnEye> } | null = null;

  constructor(heard: (message: FromTwin) => void) {
    this.#heard = heard;
  }

  post(message: ToTwin): void {
    if (message.kind === 'start') {
      const door: TwinDoor<DrawnEye> = {
        ...drawnDoor,
        stepWorld: (eye, command) => {
          this.stepped.push(command);
          drawnDoor.stepWorld(eye, command);
        },
        handPlayer: () => (view) => (view.step >= 400 ? null : hold(Math.sin(view.step / 9))),
      };
      const eye = new TwinRun(door, message.scenario, message.seed, message.hand);
      this.stepped.length = 0;
      this.#run = { number: message.run, eye };
      this.#heard({ kind: 'began', run: message.run, first: eye.first });
    } else if (this.#run?.number === message.run) {
      if (message.kind === 'allow') this.#run.eye.allow(message.steps);
      else if (message.kind === 'commands') this.#run.eye.take(message.commands);
    }
  }

  /** At most so many steps. */
  work(most: number): void {
    for (let i = 0; i < most && this.#run !== null; i++) {
      const { number, eye } = this.#run;
      const stepped = eye.step();
      if (eye.handDone) this.#heard({ kind: 'hand-done', run: number });
      if (stepped === null) return;
      this.#heard({ kind: 'stepped', run: number, ...stepped });
    }
  }

  fail(message: string): void {
    this.#heard({ kind: 'fault', run: this.#run?.number ?? 0, message });
  }

  close(): void {
    this.#run = null;
  }
}

function pair(hand: TwinHand, single = false) {
  const eyes: SlowEye[] = [];
  const told: Partial<TwinState>[] = [];
  const shown: Record<SideId, WorldView[]> = { left: [], right: [] };
  let now_ms = 0;
  const engine = new TwinEngine({
    open: (heard) => {
      const eye = new SlowEye(heard);
      eyes.push(eye);
      return eye;
    },
    tell: (state) => told.push(state),
    now_ms: () => now_ms,
  });
  const canvas = {} as HTMLCanvasElement;
  for (const side of ['left', 'right'] as const) {
    engine.show(side, { receive: (view) => shown[side].push(view), forget: () => {} }, canvas);
  }
  const setup: TwinSetup = {
    left: { label: 'A', scenario },
    right: single ? null : { label: 'B', scenario },
    hand,
    seed: 1,
  };
  engine.start(setup);
  const frame = (ms = MS_PER_STEP) => {
    now_ms += ms;
    engine.frame(now_ms);
  };
  /** Lets so many frames pass, the eyes working fast enough. */
  const run = (frames: number, ms = MS_PER_STEP) => {
    for (let i = 0; i < frames; i++) {
      frame(ms);
      for (const eye of eyes) eye.work(99);
    }
  };
  const last = () => told.at(-1) as TwinState;
  const lastShown = (side: SideId) => shown[side].at(-1) as WorldView;
  return {
    engine,
    eyes,
    left: eyes[0] as SlowEye,
    right: eyes[1] as SlowEye,
    shown,
    frame,
    run,
    last,
    lastShown,
    setup,
  };
}

describe('two eyes under one hand', () => {
  it('shows neither eye at a step that the other has not reached', () => {
    const { engine, left, right, shown, frame, last } = pair({ kind: 'program', hand: HAND });
    frame();
    left.work(20);
    for (let i = 0; i < 10; i++) frame();
    expect(last().lastStep).toBe(0);
    expect(shown.left.every(({ step }) => step === 0)).toBe(true);
    right.work(7);
    for (let i = 0; i < 10; i++) frame();
    engine.seek(99);
    expect(last().lastStep).toBe(7);
    expect(last().step).toBe(7);
    expect(shown.left.at(-1)?.step).toBe(7);
    expect(shown.right.at(-1)?.step).toBe(7);
    expect(last().left?.series.length).toBe(8);
    expect(last().right?.series.length).toBe(8);
  });

  it('gives both eyes the same commands, in order, from the hand that sees the first', () => {
    const { left, right, run, engine } = pair({ kind: 'program', hand: HAND });
    run(60);
    expect(left.stepped.length).toBeGreaterThan(50);
    expect(right.stepped).toEqual(left.stepped);
    expect(engine.commands()).toEqual(left.stepped.slice(0, engine.lastStep));
  });

  it('shows any computed moment again, exactly as it was, backwards and forwards', () => {
    const { engine, run, shown, lastShown, last } = pair({ kind: 'program', hand: HAND });
    run(130, MS_PER_STEP / 2);
    const before = { left: [...shown.left], right: [...shown.right] };
    for (const step of [5, 41, 0, 17]) {
      engine.seek(step);
      expect(last().step).toBe(step);
      for (const side of ['left', 'right'] as const) {
        expect(lastShown(side)).toBe(before[side].find((view) => view.step === step));
      }
    }
  });

  it('steps singly, computing one more step at the end, and stands still then', () => {
    const { engine, run, last } = pair({ kind: 'program', hand: HAND });
    run(20);
    engine.nudge(-1);
    const { step } = last();
    run(5);
    expect(last().playing).toBe(false);
    expect(last().step).toBe(step);
    for (let i = 0; i < 40; i++) {
      engine.nudge(1);
      run(1);
    }
    expect(last().step).toBe(step + 40);
  });

  it('repeats a span', () => {
    const { engine, run, shown, last } = pair({ kind: 'program', hand: HAND });
    run(60);
    engine.setLoop({ from: 20, to: 30 });
    shown.left.length = 0;
    shown.right.length = 0;
    run(60);
    const steps = shown.left.map(({ step }) => step);
    expect(Math.min(...steps)).toBe(20);
    expect(Math.max(...steps)).toBeLessThanOrEqual(30);
    expect(steps.filter((step) => step === 20).length).toBeGreaterThan(2);
    expect(shown.right.map(({ step }) => step)).toEqual(steps);
    engine.setLoop(null);
    run(30);
    expect(last().step).toBeGreaterThan(40);
  });

  it('goes at a tenth of the time', () => {
    const { engine, run, last } = pair({ kind: 'program', hand: HAND });
    run(30);
    engine.seek(10);
    engine.setSpeed(0.1);
    run(100);
    engine.play(false);
    expect(last().step).toBeGreaterThanOrEqual(19);
    expect(last().step).toBeLessThanOrEqual(20);
  });

  it('holds the tear: nothing later is shown, told or computed', () => {
    const { engine, run, last, left } = pair({ kind: 'program', hand: HAND });
    run(30);
    engine.hold(true);
    const { step } = last();
    run(2);
    const computed = left.stepped.length;
    engine.seek(step + 10);
    engine.nudge(1);
    run(30);
    expect(last().step).toBe(step);
    expect(last().lastStep).toBe(step);
    expect(last().left?.series.length).toBe(step + 1);
    expect(last().left?.events.every((event) => event.step <= step)).toBe(true);
    expect(left.stepped.length).toBe(computed);
    engine.hold(false);
    engine.play(true);
    run(30);
    expect(last().step).toBeGreaterThan(step);
  });

  it('lets a live hand move both eyes, and waits for it', () => {
    const { engine, run, left, right, last } = pair({ kind: 'live' });
    run(20);
    expect(left.stepped).toEqual([]);
    engine.act({ kind: 'point', at_mm: [1, 1] });
    engine.act({ kind: 'press' });
    run(90);
    expect(left.stepped.length).toBeGreaterThan(60);
    expect(right.stepped).toEqual(left.stepped);
    expect(left.stepped.at(-1)).toMatchObject({ x_mm: 1, y_mm: 1, jaws: 1 });
    expect(last().step).toBe(last().lastStep);
  });

  it('goes on with the live hand from an earlier moment, the eyes as they were there', () => {
    const { engine, run, left, right, lastShown, last } = pair({ kind: 'program', hand: HAND });
    run(60);
    engine.seek(33);
    const there = { left: lastShown('left'), right: lastShown('right') };
    const before = left.stepped.slice(0, 33);
    engine.takeOver();
    run(5);
    expect(last().setup?.hand.kind).toBe('live');
    expect(last().step).toBe(33);
    expect([...lastShown('left').position_mm]).toEqual([...there.left.position_mm]);
    expect([...lastShown('right').position_mm]).toEqual([...there.right.position_mm]);
    engine.act({ kind: 'point', at_mm: [-1, 0] });
    run(20);
    expect(left.stepped.slice(0, 33)).toEqual(before);
    expect(left.stepped.length).toBeGreaterThan(40);
    expect(right.stepped).toEqual(left.stepped);
  });

  it('plays recorded commands to the same moments, and ends', () => {
    const first = pair({ kind: 'program', hand: HAND });
    first.run(60);
    const commands = first.engine.commands();
    const again = pair({ kind: 'commands', commands });
    again.run(120);
    expect(again.last().lastStep).toBe(commands.length);
    expect(again.last().ended).toBe(true);
    expect(again.last().playing).toBe(false);
    first.engine.seek(40);
    again.engine.seek(40);
    expect([...again.lastShown('right').position_mm]).toEqual([...first.lastShown('right').position_mm]);
  });

  it('ends when both eyes have ended, and plays from the start then', () => {
    const { engine, run, last } = pair({ kind: 'program', hand: HAND });
    run(600);
    expect(last().ended).toBe(true);
    expect(last().left?.view?.phase).toBe('ended');
    expect(last().playing).toBe(false);
    engine.play(true);
    expect(last().step).toBe(0);
  });

  it('runs one eye alone', () => {
    const { run, last, eyes } = pair({ kind: 'program', hand: HAND }, true);
    run(30);
    expect(eyes.length).toBe(1);
    expect(last().right).toBeNull();
    expect(last().step).toBeGreaterThan(20);
  });

  it('says which eye failed, stops, and starts anew', () => {
    const { engine, run, right, last, setup } = pair({ kind: 'program', hand: HAND });
    run(20);
    right.fail('made to fail');
    expect(last().right?.fault).toBe('made to fail');
    expect(last().left?.fault).toBeNull();
    expect(last().playing).toBe(false);
    engine.start(setup);
    run(20);
    expect(last().right?.fault).toBeNull();
    expect(last().step).toBeGreaterThan(10);
  });

  it('drops what an eye still says of an earlier pair', () => {
    const { engine, frame, left, last, run } = pair({ kind: 'program', hand: HAND });
    frame();
    left.work(5);
    engine.restart();
    expect(last().lastStep).toBe(0);
    run(10);
    expect(last().left?.series.map(({ step }) => step)).toEqual(last().left?.series.map((_, i) => i));
  });
});

describe('frames of a pair', () => {
  function filled(bound_bytes: number, steps: number) {
    const frames = new TwinFrames(bound_bytes);
    const eye = drawnDoor.createWorld(scenario, 1);
    const view = drawnDoor.viewWorld(eye);
    for (let step = 0; step <= steps; step++) {
      // the second eye ended at step 31
      frames.add({ ...view, step }, step > 31 ? null : { ...view, step });
    }
    return frames;
  }

  it('keeps every step while there is room', () => {
    const frames = filled(1e9, 60);
    expect(frames.every).toBe(1);
    for (const step of [0, 13, 60]) expect(frames.at('left', step)?.step).toBe(step);
    expect(frames.at('right', 60)?.step).toBe(31);
    expect(frames.between('left', 10, 20).map(({ step }) => step)).toEqual([
      10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20,
    ]);
  });

  it('stays under its bound, and what it shows is the same step of both eyes', () => {
    const whole = filled(1e9, 60).bytes;
    const frames = filled(whole / 3, 60);
    expect(frames.bytes).toBeLessThanOrEqual(whole / 3);
    expect(frames.every).toBeGreaterThan(1);
    for (let step = 0; step <= 60; step++) {
      const kept = frames.keptStep(step, 60);
      expect(step - kept).toBeLessThan(frames.every);
      expect(frames.at('left', kept)?.step).toBe(kept);
      expect(frames.at('right', kept)?.step).toBe(Math.min(31, kept));
    }
    expect(frames.at('left', 60)?.step).toBe(60);
  });
});
