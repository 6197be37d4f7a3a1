import { describe, expect, it } from 'vitest';
import type { AttemptResult, HandCommand } from '../../physics/index.ts';
import { AttemptRecords } from '../../src-renderer/places/bench/attempt-records.ts';
import { offeredScenarios } from '../../src-renderer/places/bench/offered-scenarios.ts';
import { ToldCommands } from '../../src-renderer/places/bench/told-commands.ts';
import type { KeepingStore } from '../../src-renderer/stores/attempt-keeper.ts';
import { AliveWatch } from '../../src-renderer/worker/alive-watch.ts';
import type { FromWorker } from '../../src-renderer/worker/messages.ts';
import { Pace } from '../../src-renderer/worker/pace.ts';
import { numberedCommands as commands } from '../support/made-attempts.ts';

const scenario = offeredScenarios().scenarios[0]!;
const began = (attempt: number, broughtBack = false) =>
  ({ kind: 'began', attempt, scenario, seed: 7, broughtBack, geometry: {}, lastAsked: null }) as unknown as FromWorker;
const told = (attempt: number, from: number, to: number): FromWorker => ({
  kind: 'commands',
  attempt,
  fromStep: from,
  commands: commands(from, to),
});

describe('a worker that is gone', () => {
  it('is noticed after so many questions without a word, and not while it says anything', () => {
    const watch = new AliveWatch();
    for (let k = 0; k < 200; k++) {
      expect(watch.ask()).toBe(true);
      if (k % 15 === 0) watch.heard();
    }
    watch.heard();
    let asked = 0;
    while (watch.ask()) asked += 1;
    expect(asked).toBe(20);
  });

  it('leaves what it told of the attempt in hand, and of the one that could be brought back', () => {
    const page = new ToldCommands();
    const hear = (...messages: FromWorker[]) => {
      for (const message of messages) page.heard(message);
    };
    hear(began(1), told(1, 0, 5), told(1, 5, 9), began(2), told(2, 0, 3));
    expect(page.of(2)).toEqual({ seed: 7, commands: commands(0, 3) });
    expect(page.of(1)).toEqual({ seed: 7, commands: commands(0, 9) });
    // The first comes back and goes on; the next one is begun beside it.
    hear(began(1, true), told(1, 9, 12), began(3), told(3, 0, 2));
    expect(page.of(2)).toBeNull();
    hear(began(1, true), told(1, 12, 13));
    expect(page.of(1)?.commands).toEqual(commands(0, 13));
    page.forget();
    expect(page.of(1)).toBeNull();
  });
});

function records() {
  const attempts: { commands: HandCommand[]; finished: boolean; removed: boolean }[] = [];
  const lines: string[] = [];
  const kept = (id: string) => attempts[Number(id)]!;
  const store: KeepingStore = {
    beginAttempt: async () => String(attempts.push({ commands: [], finished: false, removed: false }) - 1),
    appendCommands: async (id, fromStep, some) => {
      const { commands: there } = kept(id);
      if (fromStep !== there.length) throw new Error('gap or overlap');
      there.push(...some);
    },
    finishAttempt: async (id) => {
      kept(id).finished = true;
      return { id } as never;
    },
    removeAttempt: async (id) => {
      kept(id).removed = true;
    },
  };
  const made = new AttemptRecords(
    store,
    'bench',
    () => 'somebody',
    (attempt, { state }) => lines.push(`${attempt} ${state}`),
  );
  const settle = async () => {
    for (let k = 0; k < 50; k++) await Promise.resolve();
  };
  return { made, attempts, lines, settle };
}

const result = { events: [] } as unknown as AttemptResult;

describe('an attempt that is played again in a new worker', () => {
  it('stays one attempt in the store, without a gap and without anything twice', async () => {
    const { made, attempts, lines, settle } = records();
    made.heard(began(4));
    made.keepPresent();
    made.heard(told(4, 0, 10));
    await settle();
    made.carryOn();
    // A new worker that fails before it has begun.
    made.carryOn();
    made.heard(began(1));
    made.heard(told(1, 0, 8));
    made.heard(told(1, 8, 14));
    made.heard({ kind: 'ended', attempt: 1, result, moments: [] });
    await settle();
    expect(attempts).toEqual([{ commands: commands(0, 14), finished: true, removed: false }]);
    expect(lines.at(-1)).toBe('1 finished');
  });

  it('is kept from its beginning when nothing of it was in the store yet', async () => {
    const { made, attempts, settle } = records();
    made.heard(began(1));
    made.heard(told(1, 0, 10));
    made.carryOn();
    made.heard(began(1));
    made.heard(told(1, 0, 12));
    made.keepPresent();
    await settle();
    expect(attempts.map((one) => one.commands)).toEqual([commands(0, 12)]);
  });

  it('is followed by another attempt of its own', async () => {
    const { made, attempts, settle } = records();
    made.heard(began(1));
    made.keepPresent();
    made.heard(told(1, 0, 4));
    await settle();
    made.carryOn();
    made.heard(began(1));
    made.heard(told(1, 0, 6));
    made.heard(began(2));
    made.keepPresent();
    made.heard(told(2, 0, 3));
    await settle();
    expect(attempts.map((one) => one.commands)).toEqual([commands(0, 6), commands(0, 3)]);
  });
});

describe('a machine that slept, or whose clock was set', () => {
  it('does not leap: eight hours are not made up for, and time runs as before soon after', () => {
    const pace = new Pace(1000 / 60, 4);
    const runFor = (from_ms: number, to_ms: number): number => {
      let steps = 0;
      for (let t = from_ms; t < to_ms; t += 4) steps += pace.dueAt(t);
      return steps;
    };
    runFor(0, 1000);
    const slept_ms = 8 * 3600_000;
    expect(pace.dueAt(slept_ms)).toBeLessThanOrEqual(4);
    const after = runFor(slept_ms + 4, slept_ms + 3004);
    expect(after).toBeGreaterThan(176);
    expect(after).toBeLessThanOrEqual(184);
    expect(pace.pace).toBeGreaterThan(0.95);
  });

  it('takes no step for a clock that goes back, and none twice', () => {
    const pace = new Pace(1000 / 60, 4);
    pace.dueAt(10_000);
    expect(pace.dueAt(5000)).toBe(0);
    let steps = 0;
    for (let t = 5004; t <= 6000; t += 4) steps += pace.dueAt(t);
    expect(steps).toBeGreaterThanOrEqual(58);
    expect(steps).toBeLessThanOrEqual(60);
  });
});
