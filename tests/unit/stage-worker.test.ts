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

function serving() {
  const heard: FromWorker[] = [];
  let now = 0;
  const server = new AttemptServer(drawnDoor, { post: (message) => heard.push(message), now_ms: () => now });
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
    const ended = last('ended');
    expect(ended?.commands).toHaveLength(ended?.result.steps ?? -1);
    expect(ended?.commands[0]).toMatchObject({ x_mm: 1.5, jaws: 0 });
    expect(ended?.commands.at(-1)).toEqual(hold);
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
