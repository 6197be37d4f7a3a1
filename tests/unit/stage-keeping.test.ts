import { describe, expect, it } from 'vitest';
import type { AttemptResult, HandCommand, WorldEvent } from '../../physics/index.ts';
import { AttemptRecords } from '../../src-renderer/places/bench/attempt-records.ts';
import { offeredScenarios } from '../../src-renderer/places/bench/offered-scenarios.ts';
import { AttemptKeeper, type Keeping, type KeepingStore } from '../../src-renderer/stores/attempt-keeper.ts';
import type { FromWorker } from '../../src-renderer/worker/messages.ts';
import { numberedCommands as commands } from '../support/made-attempts.ts';

const scenario = offeredScenarios().scenarios[0]!;
const event = (kind: WorldEvent['kind']): WorldEvent => ({ step: 1, time_s: 0, kind, clock_h: null });
const resultWith = (...kinds: WorldEvent['kind'][]) => ({ events: kinds.map(event) }) as unknown as AttemptResult;

/** A store in memory that can be told to refuse, and that refuses gaps as the real one does. */
function memoryStore() {
  const attempts = new Map<string, { commands: HandCommand[]; result: AttemptResult | null }>();
  const state = { refusing: false, calls: 0, inFlight: 0, mostInFlight: 0 };
  const guarded = async <T>(work: () => T): Promise<T> => {
    state.calls += 1;
    state.inFlight += 1;
    state.mostInFlight = Math.max(state.mostInFlight, state.inFlight);
    await Promise.resolve();
    state.inFlight -= 1;
    if (state.refusing) throw new Error('the disk is full');
    return work();
  };
  const store: KeepingStore = {
    beginAttempt: () =>
      guarded(() => {
        const id = `id${attempts.size + 1}`;
        attempts.set(id, { commands: [], result: null });
        return id;
      }),
    appendCommands: (id, fromStep, some) =>
      guarded(() => {
        const kept = attempts.get(id);
        if (kept === undefined || fromStep > kept.commands.length) throw new Error('gap');
        kept.commands.splice(fromStep, kept.commands.length, ...some);
      }),
    finishAttempt: (id, result) =>
      guarded(() => {
        const kept = attempts.get(id);
        if (kept !== undefined) kept.result = result;
        return { id } as never;
      }),
    removeAttempt: (id) => guarded(() => void attempts.delete(id)),
  };
  return { store, attempts, state };
}

const settled = async () => {
  for (let i = 0; i < 50; i++) await Promise.resolve();
};

function keeping() {
  const memory = memoryStore();
  const told: Keeping[] = [];
  const waiting: (() => void)[] = [];
  const keeper = new AttemptKeeper({
    store: memory.store,
    personId: () => 'somebody',
    place: 'bench',
    scenario,
    seed: 1,
    modelVersion: '1',
    tell: (line) => told.push(line),
    later: (work) => waiting.push(work),
  });
  const later = async () => {
    for (const work of waiting.splice(0)) work();
    await settled();
  };
  return { ...memory, told, keeper, later };
}

describe('keeping an attempt as it happens', () => {
  it('puts nothing into the store before there is something worth keeping, then all of it', async () => {
    const { keeper, attempts, told } = keeping();
    keeper.add(0, commands(0, 5));
    await settled();
    expect(attempts.size).toBe(0);
    keeper.keep();
    keeper.add(5, commands(5, 8));
    await settled();
    expect(attempts.get('id1')?.commands).toEqual(commands(0, 8));
    expect(told.at(-1)).toEqual({ state: 'kept', id: 'id1' });
  });

  it('refuses commands that do not follow', () => {
    const { keeper } = keeping();
    keeper.add(0, commands(0, 5));
    expect(() => keeper.add(6, commands(6, 7))).toThrow('do not follow');
  });

  it('says so when the store refuses, holds what it did not take, and goes on in order', async () => {
    const { keeper, attempts, told, state, later } = keeping();
    keeper.keep();
    keeper.add(0, commands(0, 3));
    await settled();
    state.refusing = true;
    keeper.add(3, commands(3, 6));
    await settled();
    expect(told.at(-1)).toEqual({ state: 'not-kept', why: 'the disk is full' });
    keeper.add(6, commands(6, 9));
    await later();
    expect(attempts.get('id1')?.commands).toHaveLength(3);
    state.refusing = false;
    await later();
    expect(attempts.get('id1')?.commands).toEqual(commands(0, 9));
    expect(told.at(-1)?.state).toBe('kept');
  });

  it('closes the attempt only after its last command is in, one call at a time', async () => {
    const { keeper, attempts, told, state, later } = keeping();
    state.refusing = true;
    keeper.keep();
    keeper.add(0, commands(0, 4));
    keeper.finish(resultWith('tear-starts'));
    await settled();
    expect(attempts.size).toBe(0);
    state.refusing = false;
    await later();
    expect(attempts.get('id1')).toMatchObject({ commands: commands(0, 4), result: resultWith('tear-starts') });
    expect(told.at(-1)?.state).toBe('finished');
    expect(state.mostInFlight).toBe(1);
  });

  it('removes what was given up, also while it is still being begun', async () => {
    const { keeper, attempts, state } = keeping();
    keeper.keep();
    keeper.add(0, commands(0, 4));
    keeper.remove();
    await settled();
    expect(attempts.size).toBe(0);
    expect(state.calls).toBeGreaterThan(1);
    const untouched = keeping();
    untouched.keeper.add(0, commands(0, 4));
    untouched.keeper.remove();
    await settled();
    expect(untouched.state.calls).toBe(0);
  });
});

describe('which attempts are kept', () => {
  function recording() {
    const { store, attempts } = memoryStore();
    const records = new AttemptRecords(
      store,
      'bench',
      () => 'somebody',
      () => {},
    );
    const began = (attempt: number, broughtBack = false) =>
      records.heard({ kind: 'began', attempt, scenario, seed: 1, broughtBack } as FromWorker);
    const view = (attempt: number, step: number, ...kinds: WorldEvent['kind'][]) =>
      records.heard({ kind: 'view', attempt, view: { step, events: kinds.map(event) } } as unknown as FromWorker);
    const used = (attempt: number, from: number, to: number) =>
      records.heard({ kind: 'commands', attempt, fromStep: from, commands: commands(from, to) });
    const aside = (attempt: number, ...kinds: WorldEvent['kind'][]) =>
      records.heard({ kind: 'laid-aside', attempt, result: resultWith(...kinds) });
    return { records, attempts, began, view, used, aside };
  }

  it('begins with the first grasp or refill, not with a look at the eye', async () => {
    const { attempts, began, view, used } = recording();
    began(1);
    used(1, 0, 60);
    view(1, 600);
    await settled();
    expect(attempts.size).toBe(0);
    view(1, 61, 'grasp');
    await settled();
    expect(attempts.get('id1')?.commands).toHaveLength(60);
    began(2);
    used(2, 0, 120);
    view(2, 120, 'refill');
    await settled();
    expect(attempts.get('id2')?.commands).toHaveLength(120);
  });

  it('closes an attempt that was torn and started over once the next one tears, and removes one with nothing torn', async () => {
    const { attempts, began, view, used, aside } = recording();
    began(1);
    used(1, 0, 130);
    view(1, 130, 'tear-starts');
    aside(1, 'tear-starts');
    began(2);
    await settled();
    expect(attempts.get('id1')?.result).toBeNull();
    used(2, 0, 130);
    view(2, 130, 'grasp');
    await settled();
    expect(attempts.size).toBe(2);
    aside(2, 'grasp');
    began(3);
    await settled();
    expect(attempts.get('id1')?.result).toEqual(resultWith('tear-starts'));
    view(3, 5, 'tear-starts');
    await settled();
    expect(attempts.has('id2')).toBe(false);
  });

  it('goes on with an attempt that is brought back, where it was', async () => {
    const { records, attempts, began, view, used, aside } = recording();
    began(1);
    used(1, 0, 130);
    view(1, 130, 'tear-starts');
    aside(1, 'tear-starts');
    began(2);
    used(2, 0, 10);
    aside(2);
    began(1, true);
    used(1, 130, 140);
    await settled();
    expect(attempts.get('id1')).toMatchObject({ commands: commands(0, 140), result: null });
    records.heard({ kind: 'ended', attempt: 1, result: resultWith('complete'), moments: [] });
    await settled();
    expect(attempts.get('id1')?.result).toEqual(resultWith('complete'));
    expect(attempts.size).toBe(1);
  });

  it('keeps a trial from its first step', async () => {
    const { records, attempts, began, used } = recording();
    began(1);
    records.keepPresent();
    used(1, 0, 3);
    await settled();
    expect(attempts.get('id1')?.commands).toHaveLength(3);
  });
});
