import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import canonicalize from 'canonicalize';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { StoreHost } from '../../src-main/ipc/contract.ts';
import { openDatabase } from '../../src-main/store/open-store.ts';
import { canonicalJson, sealOf } from '../../src-main/store/seal.ts';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, madePerson, madeResult, scenario } from '../support/made-attempts.ts';

let folder: string;
let store: Store;
let host: Pick<StoreHost, keyof ReturnType<typeof storeServices>>;
const person = madePerson();

const start = { personId: person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' } as const;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'store-'));
  store = new Store(folder);
  host = storeServices(store);
  await host.savePerson(person);
});
afterEach(() => {
  store.close();
  rmSync(folder, { recursive: true });
});

async function finished(steps = 90, seed = 1): Promise<string> {
  const id = await host.beginAttempt(start);
  await host.appendCommands(id, 0, madeCommands(steps, seed));
  await host.finishAttempt(id, madeResult(steps, seed));
  return id;
}

describe('people and classes', () => {
  test('are kept, changed by id, and removed; somebody with attempts stays', async () => {
    const other = madePerson('Bo Example');
    await host.savePerson(other);
    await host.savePerson({ ...other, name: 'Bo Changed', colour: 'rose' });
    expect((await host.listPeople()).map(({ name }) => name)).toEqual(['Ada Example', 'Bo Changed']);
    const id = await finished();
    await expect(host.removePerson(person.id)).rejects.toThrow('one attempt');
    await host.removeAttempt(id);
    await host.removePerson(person.id);
    expect(await host.listPeople()).toEqual([{ ...other, name: 'Bo Changed', colour: 'rose' }]);
  });

  test('a class keeps its members in order, loses those who go, and names nobody who is not here', async () => {
    const other = madePerson('Bo Example');
    await host.savePerson(other);
    const group = { id: randomUUID(), name: 'Autumn course', memberIds: [other.id, person.id] };
    await host.saveClass(group);
    expect(await host.listClasses()).toEqual([group]);
    await expect(host.saveClass({ ...group, memberIds: [randomUUID()] })).rejects.toThrow('not here');
    expect(await host.listClasses()).toEqual([group]);
    await host.removePerson(other.id);
    expect(await host.listClasses()).toEqual([{ ...group, memberIds: [person.id] }]);
    await host.removeClass(group.id);
    expect(await host.listClasses()).toEqual([]);
    expect(await host.listPeople()).toHaveLength(1);
  });
});

describe('an attempt', () => {
  test('is begun, added to and finished, and comes back as it was, also after the store was closed', async () => {
    const id = await host.beginAttempt(start);
    const commands = madeCommands(100);
    for (let at = 0; at < 100; at += 15) await host.appendCommands(id, at, commands.slice(at, at + 15));
    expect(await host.unfinishedAttempts()).toMatchObject([{ id, steps: 100, ended: null, seal: 'unsealed' }]);
    const result = madeResult(100);
    const summary = await host.finishAttempt(id, result);
    expect(summary).toMatchObject({
      passed: true,
      steps: 100,
      seal: 'fits',
      personName: 'Ada Example',
      place: 'trial',
    });
    store.close();
    const loaded = await host.loadAttempt(id);
    expect(loaded).toEqual({ summary, scenario, commands, result });
    expect(await host.unfinishedAttempts()).toEqual([]);
    expect(await host.listAttempts({})).toEqual([summary]);
  });

  test('commands sent twice are kept once, a gap is refused, a finished attempt takes none', async () => {
    const id = await host.beginAttempt(start);
    const commands = madeCommands(40);
    await host.appendCommands(id, 0, commands.slice(0, 20));
    await host.appendCommands(id, 10, commands.slice(10, 30));
    await host.appendCommands(id, 0, commands.slice(0, 30));
    await expect(host.appendCommands(id, 31, commands.slice(31))).rejects.toThrow('30 to 30');
    await host.appendCommands(id, 30, commands.slice(30));
    expect((await host.loadAttempt(id)).commands).toEqual(commands);
    await host.finishAttempt(id, madeResult(40));
    await expect(host.appendCommands(id, 40, commands)).rejects.toThrow('finished');
    await expect(host.finishAttempt(id, madeResult(40))).rejects.toThrow('finished');
  });

  test('a result of other steps, another seed, scenario or model is refused', async () => {
    const id = await host.beginAttempt(start);
    await host.appendCommands(id, 0, madeCommands(40));
    const result = madeResult(40);
    for (const changed of [{ steps: 39 }, { seed: 2 }, { scenario: 'other' }, { modelVersion: 'other' }]) {
      await expect(host.finishAttempt(id, { ...result, ...changed })).rejects.toThrow('another attempt');
    }
    expect((await host.listAttempts({}))[0]).toMatchObject({ endedAt: null, steps: 40 });
    await host.finishAttempt(id, result);
  });

  test('an unknown person or a scenario that breaks its own rules opens none', async () => {
    await expect(host.beginAttempt({ ...start, personId: randomUUID() })).rejects.toThrow('no such person');
    const wrong = { ...scenario, eye: { ...scenario.eye, age_years: -1 } };
    await expect(host.beginAttempt({ ...start, scenario: wrong })).rejects.toThrow('age_years');
    expect(await host.listAttempts({})).toEqual([]);
  });

  test('playing it again is noted as the same or as different', async () => {
    const id = await finished();
    expect(await host.noteReplay(id, madeResult(90).digest)).toBe('same');
    expect((await host.listAttempts({}))[0].replay).toBe('same');
    expect(await host.noteReplay(id, '0000000000000000')).toBe('different');
    expect((await host.loadAttempt(id)).summary.replay).toBe('different');
  });

  test('lists are filtered by person, class, scenario, place, outcome and date, newest first', async () => {
    const other = madePerson('Bo Example');
    await host.savePerson(other);
    const group = { id: randomUUID(), name: 'Class', memberIds: [other.id] };
    await host.saveClass(group);
    const first = await finished(90, 1);
    const failed = await finished(90, 3);
    const bench = await host.beginAttempt({ ...start, personId: other.id, place: 'bench' });
    const ids = async (filter: object) => (await host.listAttempts(filter)).map(({ id }) => id);
    expect(await ids({})).toEqual([bench, failed, first]);
    expect(await ids({ limit: 1 })).toEqual([bench]);
    expect(await ids({ personId: person.id })).toEqual([failed, first]);
    expect(await ids({ classId: group.id })).toEqual([bench]);
    expect(await ids({ place: 'trial', passed: true })).toEqual([first]);
    expect(await ids({ passed: false })).toEqual([failed]);
    expect(await ids({ scenarioId: 'no-such' })).toEqual([]);
    const today = new Date().toISOString().slice(0, 10);
    expect(await ids({ since: today, until: today })).toHaveLength(3);
    expect(await ids({ until: '2001-01-01' })).toEqual([]);
    const shapes = await host.openingShapes({ passed: true });
    expect(shapes.map(({ attemptId }) => attemptId)).toEqual([first]);
    expect(shapes[0].outline_mm.length).toBe(180);
  });
});

describe('the seal', () => {
  test('is over canonical JSON, the same text as the library for it makes', () => {
    const keys = fc.oneof(fc.string(), fc.constantFrom('10', '9', 'a', 'Z', '\u00e9', '\ud83d\ude00', '__proto__'));
    const { value } = fc.letrec((tie) => ({
      value: fc.oneof(
        { maxDepth: 4 },
        fc.constantFrom(null, true, false, 0, -0, 1e21, 1e-7, 5e-324),
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.string({ unit: 'grapheme' }),
        fc.array(fc.double({ noNaN: true, noDefaultInfinity: true })),
        fc.array(tie('value')),
        fc.dictionary(keys, tie('value')),
      ),
    }));
    fc.assert(
      fc.property(value, (data) => {
        expect(canonicalJson(data)).toBe(canonicalize(data));
      }),
      { numRuns: 500 },
    );
    for (const wrong of [Number.NaN, [1, Number.POSITIVE_INFINITY], { a: '\ud800' }, undefined]) {
      expect(() => canonicalJson(wrong)).toThrow();
    }
  });

  test('is over who, where, when, scenario, seed, model, commands and result', () => {
    const content = {
      personId: person.id,
      place: 'trial',
      startedAt: '2026-01-01T10:00:00.000Z',
      endedAt: '2026-01-01T10:01:00.000Z',
      scenario,
      seed: 1,
      modelVersion: 'test',
      commands: madeCommands(20),
      result: madeResult(20),
    };
    const commands = madeCommands(20);
    commands[7] = { ...commands[7], y_mm: commands[7].y_mm + 1e-4 };
    const changes = [
      { personId: randomUUID() },
      { place: 'bench' },
      { startedAt: '2026-01-01T10:00:00.001Z' },
      { endedAt: '2026-01-01T10:00:00.001Z' },
      { scenario: { ...scenario, timeLimit_s: scenario.timeLimit_s + 1 } },
      { seed: 2 },
      { modelVersion: 'tesu' },
      { commands },
      { result: { ...madeResult(20), passed: false } },
    ];
    const seals = [{}, ...changes].map((change) => sealOf({ ...content, ...change }));
    expect(new Set(seals).size).toBe(changes.length + 1);
    expect(seals[0]).toMatch(/^[0-9a-f]{64}$/);
    const turned = Object.fromEntries(Object.entries(content.result).reverse()) as unknown as typeof content.result;
    expect(sealOf({ ...content, result: turned })).toBe(seals[0]);
  });

  test('one changed bit in any byte that is stored of a finished attempt shows', async () => {
    const id = await finished(30);
    store.close();
    const database = openDatabase(join(folder, 'rimward.sqlite'));
    const places: [string, string][] = [
      ['commands', 'packed'],
      ['results', 'packed'],
      ['shapes', 'outline'],
      ['scenarios', 'text'],
      ['scenarios', 'title'],
      ...['person_id', 'place', 'model_version', 'started_at', 'ended_at', 'summary', 'seal', 'stored_digest'].map(
        (column): [string, string] => ['attempts', column],
      ),
    ];
    database.exec('PRAGMA foreign_keys = OFF; PRAGMA synchronous = OFF');
    let tried = 0;
    for (const [table, column] of places) {
      const value = database.value(`SELECT CAST(${column} AS BLOB) FROM ${table}`) as Uint8Array;
      const isText = typeof database.value(`SELECT ${column} FROM ${table}`) === 'string';
      const set = (bytes: Uint8Array) =>
        database.run(`UPDATE ${table} SET ${column} = ${isText ? 'CAST(? AS TEXT)' : '?'}`, bytes);
      // Every byte of what is short, some hundred of what is long, the last among them.
      const stride = Math.max(1, Math.floor(value.length / 120));
      const spread = Array.from({ length: Math.ceil(value.length / stride) }, (_, k) => k * stride);
      for (const at of new Set([...spread, value.length - 1])) {
        const changed = Uint8Array.from(value);
        changed[at] ^= 1;
        set(changed);
        tried += 1;
        const outcome = await host.loadAttempt(id).then(
          ({ summary }) => summary.seal,
          (fault: Error) => fault.message,
        );
        if (outcome === 'fits') throw new Error(`byte ${at} of ${table}.${column} changed and the seal still fits`);
      }
      set(value);
      expect((await host.loadAttempt(id)).summary.seal, `${table}.${column} put back`).toBe('fits');
    }
    for (const change of ['seed = seed + 1', 'steps = steps + 1', 'passed = 1 - passed']) {
      database.exec(`UPDATE attempts SET ${change}`);
      expect((await host.loadAttempt(id)).summary.seal, change).toBe('broken');
      expect((await host.listAttempts({}))[0].seal, change).toBe('broken');
      database.exec(`UPDATE attempts SET ${change.replace('+', '-')}`);
      expect((await host.loadAttempt(id)).summary.seal, change).toBe('fits');
    }
    database.close();
    expect(tried).toBeGreaterThan(900);
  });

  test('a list shows a changed line at once, and shows none of its numbers', async () => {
    await finished(30);
    const database = openDatabase(join(folder, 'rimward.sqlite'));
    database.exec(`UPDATE attempts SET summary = replace(summary, '"passed":true', '"passed":false')`);
    expect((await host.listAttempts({}))[0]).toMatchObject({ seal: 'broken', passed: null, opening: null, graded: [] });
    database.close();
  });
});
