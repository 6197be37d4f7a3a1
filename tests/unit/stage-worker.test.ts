import { describe, expect, it } from 'vitest';
import type { HandCommand, Scenario } from '../../physics/index.ts';
import { offeredScenarios } from '../../src-renderer/places/bench/offered-scenarios.ts';
import type { FromWorker } from '../../src-renderer/worker/messages.ts';
import { Pace } from '../../src-renderer/worker/pace.ts';
import { AttemptServer } from '../../src-renderer/worker/serve-attempts.ts';
import { drawnDoor } from '../support/view-fixture.ts';

const STEP_ms = 1000 / 60;
const { scenarios, problems } = offeredScenarios();
const scenario = scenarios[0] as Scenario;
const hover: HandCommand = { x_mm: 1, y_mm: 0, lift_mm: 0.5, jaws: 0, instrument: 'forceps', incision: 0 };
const hold: HandCommand = { ...hover, jaws: 1 };

let heardLast: readonly FromWorker[] = [];
let stepped: HandCommand[] = [];

/** Every command told of an attempt, in order. */
const told = (attempt: number): HandCommand[] =>
  heardLast.flatMap((message) =>
    message.kind === 'commands' && message.attempt === attempt ? [...message.commands] : [],
  );

/** @param look_ms how far the clock goes on with every look at it */
function serving(look_ms = 0) {
  const heard: FromWorker[] = [];
  heardLast = heard;
  stepped = [];
  let now = 0;
  const noted = stepped;
  const door: typeof drawnDoor = {
    ...drawnDoor,
    stepWorld: (eye, command) => {
      noted.push(command);
      drawnDoor.stepWorld(eye, command);
    },
  };
  const now_ms = () => {
    now += look_ms;
    return now;
  };
  const server = new AttemptServer(door, { post: (message) => heard.push(message), now_ms });
  const run = (ms: number) => {
    for (const end = now + ms; now < end; now += STEP_ms / 2) server.tick();
  };
  const ask = (command: HandCommand) =>
    server.receive({ kind: 'command', attempt: last('began')?.attempt ?? 0, command });
  const last = <K extends FromWorker['kind']>(kind: K) =>
    heard.findLast((message): message is Extract<FromWorker, { kind: K }> => message.kind === kind);
  return { server, heard, run, last, ask };
}

describe('pace', () => {
  it('gives the steps that wall time asks for', () => {
    const pace = new Pace(STEP_ms, 4);
    let steps = 0;
    for (let t = 0; t <= 1000; t += 4) steps += pace.dueAt(t);
    expect(steps).toBe(60);
    expect(pace.pace).toBeCloseTo(1, 6);
  });

  it('drops what cannot be caught up and says by how much time is slowed', () => {
    const pace = new Pace(STEP_ms, 4);
    let steps = 0;
    // every look comes 10 steps late
    for (let k = 0; k <= 60; k++) steps += pace.dueAt(k * 10 * STEP_ms);
    expect(steps).toBe(60 * 4);
    expect(pace.pace).toBeCloseTo(0.4, 2);
    expect(pace.dueAt(601 * STEP_ms)).toBeLessThanOrEqual(1);
  });

  it('does not catch up the time of a pause', () => {
    const pace = new Pace(STEP_ms, 4);
    pace.dueAt(0);
    pace.rest();
    expect(pace.dueAt(60_000)).toBe(0);
  });
});

describe('the attempt in the worker', () => {
  it('offers every shipped scenario', () => {
    expect(problems).toEqual([]);
    expect(scenarios.length).toBeGreaterThanOrEqual(3);
  });

  it('shows the eye at once but lets no time pass before the hand has moved', () => {
    const { server, run, last, heard } = serving();
    server.receive({ kind: 'start', scenario });
    run(500);
    expect(last('began')?.attempt).toBe(1);
    expect(heard.filter((message) => message.kind === 'view')).toHaveLength(1);
    expect(last('view')?.view.step).toBe(0);
  });

  it('samples the latest command at each step and records what it sampled', () => {
    const { server, run, last, ask } = serving();
    server.receive({ kind: 'start', scenario });
    ask(hover);
    ask({ ...hover, x_mm: 1.5 });
    run(200);
    ask(hold);
    run(12_000);
    const used = told(1);
    expect(used).toHaveLength(last('ended')?.result.steps ?? -1);
    expect(used[0]).toMatchObject({ x_mm: 1.5, jaws: 0 });
    expect(used.at(-1)).toEqual(hold);
  });

  it('tells what it stepped with while it happens, in order and without a gap', () => {
    const { server, run, last, ask, heard } = serving();
    server.receive({ kind: 'start', scenario });
    ask(hold);
    run(250);
    expect(told(1).length).toBeGreaterThan(5);
    const at = last('view')?.view.step ?? 0;
    // never more than a tenth of a second behind what is shown
    expect(at - told(1).length).toBeLessThanOrEqual(7);
    run(2000);
    const messages = heard.filter((message) => message.kind === 'commands');
    let next = 0;
    for (const { fromStep, commands } of messages) {
      expect(fromStep).toBe(next);
      next += commands.length;
    }
  });

  it('steps with nothing finer than what is stored', () => {
    const { server, run, ask } = serving();
    server.receive({ kind: 'start', scenario });
    ask({ ...hold, x_mm: 1.234_567_89, y_mm: -1e-9, lift_mm: 0.123_456, jaws: 0.999_96 });
    run(200);
    expect(stepped.length).toBeGreaterThan(3);
    expect(stepped[0]).toEqual({ ...hold, x_mm: 1.2346, y_mm: 0, lift_mm: 0.1235, jaws: 1 });
    expect(Object.is(stepped[0]?.y_mm, 0)).toBe(true);
    expect(told(1)).toEqual(stepped.slice(0, told(1).length));
  });

  it('plays what was recorded, then lets the hand go on, and tells all of it as one attempt', () => {
    const { server, run, last, ask } = serving();
    server.receive({ kind: 'start', scenario });
    ask(hover);
    run(200);
    const recorded = { seed: 5, commands: Array.from({ length: 90 }, () => hold) };
    server.receive({ kind: 'start', scenario, recorded });
    const at = last('view')?.view.step;
    run(100);
    expect(last('replaying')).toMatchObject({ attempt: 2, done: 90, of: 90 });
    expect(last('began')).toMatchObject({ attempt: 2, seed: 5, lastAsked: hold });
    expect(last('view')?.view.step).toBe(90);
    expect(at).toBeLessThan(90);
    run(300);
    expect(last('view')?.view.step).toBe(90);
    ask(hover);
    run(300);
    expect(told(2).slice(0, 90)).toEqual(recorded.commands);
    expect(
      told(2)
        .slice(90)
        .every((command) => command.jaws === 0),
    ).toBe(true);
    expect(told(2).length).toBeGreaterThan(95);
  });

  it('gives up playing when asked, and the attempt before is still there', () => {
    const slow = serving(5);
    slow.server.receive({ kind: 'start', scenario });
    slow.ask(hover);
    slow.run(200);
    const before = slow.last('view')?.view.step ?? 0;
    slow.server.receive({
      kind: 'start',
      scenario,
      recorded: { seed: 1, commands: Array.from({ length: 5000 }, () => hold) },
    });
    slow.server.tick();
    expect(slow.last('replaying')?.done).toBeLessThan(5000);
    slow.server.receive({ kind: 'stop-replaying' });
    slow.run(300);
    expect(slow.last('replay-stopped')?.attempt).toBe(2);
    expect(slow.last('view')?.attempt).toBe(1);
    slow.server.receive({ kind: 'pause', paused: false });
    slow.run(300);
    expect(slow.last('view')?.view.step).toBeGreaterThan(before);
  });

  it('ends an attempt as it stands when asked, once', () => {
    const { server, run, last, ask, heard } = serving();
    server.receive({ kind: 'start', scenario });
    ask(hold);
    run(500);
    server.receive({ kind: 'end', attempt: 1 });
    server.receive({ kind: 'end', attempt: 1 });
    const steps = last('ended')?.result.steps;
    expect(told(1)).toHaveLength(steps ?? -1);
    run(300);
    expect(heard.filter((message) => message.kind === 'ended')).toHaveLength(1);
    expect(last('view')?.view.step).toBe(steps);
  });

  it('lays an unfinished attempt aside with what came of it', () => {
    const { server, run, last, ask } = serving();
    server.receive({ kind: 'start', scenario });
    ask(hold);
    run(500);
    server.receive({ kind: 'start', scenario });
    expect(last('laid-aside')).toMatchObject({ attempt: 1, result: { steps: told(1).length } });
  });

  it('stands still while paused and steps no more once the attempt has ended', () => {
    const { server, run, last, ask } = serving();
    server.receive({ kind: 'start', scenario });
    ask(hold);
    run(300);
    server.receive({ kind: 'pause', paused: true });
    const at = last('view')?.view.step;
    run(300);
    expect(last('view')?.view.step).toBe(at);
    server.receive({ kind: 'pause', paused: false });
    run(15_000);
    expect(last('view')?.view.phase).toBe('ended');
    const end = last('view')?.view.step;
    run(500);
    expect(last('view')?.view.step).toBe(end);
  });

  it('takes no command that was meant for another attempt', () => {
    const { server, run, last } = serving();
    server.receive({ kind: 'start', scenario });
    server.receive({ kind: 'start', scenario });
    server.receive({ kind: 'command', attempt: 1, command: hold });
    run(300);
    expect(last('view')?.view.step).toBe(0);
  });

  it('brings the attempt before back until the new one tears', () => {
    const { server, run, last, ask } = serving();
    server.receive({ kind: 'start', scenario });
    ask(hold);
    run(500);
    const left = last('view')?.view.step ?? 0;
    server.receive({ kind: 'start', scenario });
    ask(hover);
    run(100);
    server.receive({ kind: 'bring-back' });
    expect(last('began')).toMatchObject({ attempt: 1, broughtBack: true });
    run(300);
    expect(last('view')?.view.step).toBe(left);
    server.receive({ kind: 'start', scenario });
    ask(hold);
    run(300);
    server.receive({ kind: 'bring-back' });
    expect(last('began')?.attempt).toBe(3);
  });
});
