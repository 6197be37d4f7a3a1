import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { writeTextAtomically } from '../../src-main/files/atomic-write.ts';
import { dataFolder } from '../../src-main/files/data-folder.ts';
import { keptData } from '../../src-main/files/kept-data.ts';
import { answerCall, Refusal } from '../../src-main/ipc/answer.ts';
import { HOST_METHODS, type KeptAttempt } from '../../src-main/ipc/contract.ts';
import { callArguments } from '../../src-main/ipc/messages.ts';
import { pageSideHost } from '../../src-main/ipc/page-side.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kept-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const scenario = JSON.parse(readFileSync(join(import.meta.dirname, '../../scenarios/adult-baseline.json'), 'utf8'));
const attempt = (seed: number): KeptAttempt => ({
  rimwardAttempt: 1,
  scenario,
  seed,
  modelVersion: 'test',
  commands: [{ x_mm: 0.1, y_mm: -0.2, lift_mm: 1e-9, jaws: 1, instrument: 'forceps', incision: 0 }],
  digest: null,
});

describe('kept data', () => {
  test('the attempt kept last comes back as it was, of several kept within one moment', async () => {
    const data = keptData(folder);
    expect(await data.loadLastAttempt()).toBeNull();
    for (const seed of [1, 2, 3]) await data.keepAttempt(attempt(seed));
    expect(await data.loadLastAttempt()).toEqual(attempt(3));
    expect(await keptData(folder).loadLastAttempt()).toEqual(attempt(3));
    expect(readdirSync(join(folder, 'attempts'))).toHaveLength(3);
  });

  test('a damaged attempt is told and left as it was', async () => {
    const data = keptData(folder);
    const name = await data.keepAttempt(attempt(1));
    const path = join(folder, 'attempts', name);
    writeFileSync(path, readFileSync(path, 'utf8').slice(0, 100));
    const before = readFileSync(path, 'utf8');
    await expect(data.loadLastAttempt()).rejects.toThrow(Refusal);
    expect(readFileSync(path, 'utf8')).toBe(before);
  });

  test('preferences saved at once are all kept; a damaged file counts as none', async () => {
    const data = keptData(folder);
    await Promise.all(['a', 'b', 'c', 'd'].map((key, value) => data.savePreference(key, value)));
    expect(await data.loadPreferences()).toEqual({ a: 0, b: 1, c: 2, d: 3 });
    writeFileSync(join(folder, 'preferences.json'), '{"a":');
    expect(await data.loadPreferences()).toEqual({});
    await data.savePreference('e', true);
    expect(await data.loadPreferences()).toEqual({ e: true });
  });

  test('a write leaves the whole text, nothing beside it, and lets nobody else read it', async () => {
    const path = join(folder, 'deep', 'file.json');
    await writeTextAtomically(path, 'one');
    await writeTextAtomically(path, 'two');
    expect(readFileSync(path, 'utf8')).toBe('two');
    expect(readdirSync(join(folder, 'deep'))).toEqual(['file.json']);
    if (process.platform !== 'win32') expect(statSync(path).mode & 0o077).toBe(0);
  });

  test('a write that fails leaves the old text and nothing beside it', async () => {
    const path = join(folder, 'taken');
    await writeTextAtomically(join(path, 'inside'), 'old');
    await expect(writeTextAtomically(path, 'new')).rejects.toThrow();
    expect(readFileSync(join(path, 'inside'), 'utf8')).toBe('old');
    expect(readdirSync(folder)).toEqual(['taken']);
  });

  test('the folder can be moved by the environment', () => {
    expect(dataFolder({ RIMWARD_DATA: '/somewhere' })).toBe('/somewhere');
    expect(dataFolder({}).toLowerCase()).toContain('rimward');
  });
});

describe('messages', () => {
  test('every method has a schema, and no schema is without a method', () => {
    expect(Object.keys(callArguments).sort()).toEqual([...HOST_METHODS].sort());
  });

  test('an attempt with a number that is none, or too many commands, is refused', async () => {
    const services = { keepAttempt: async () => 'kept' };
    const keep = (changed: object) => answerCall(services, 'keepAttempt', [{ ...attempt(1), ...changed }]);
    expect((await keep({})).ok).toBe(true);
    const [command] = attempt(1).commands;
    for (const x_mm of [Number.NaN, Number.POSITIVE_INFINITY, '1', null]) {
      expect((await keep({ commands: [{ ...command, x_mm }] })).ok).toBe(false);
    }
    expect((await keep({ commands: Array(200_001).fill(command) })).ok).toBe(false);
    expect((await keep({ scenario: { ...scenario, id: '../x' } })).ok).toBe(false);
    expect((await keep({ rimwardAttempt: 2 })).ok).toBe(false);
  });

  test('a call of any shape is answered and never thrown', async () => {
    let served = 0;
    const services = {
      savePreference: async () => {
        served += 1;
      },
    };
    await fc.assert(
      fc.asyncProperty(
        fc.oneof(fc.constantFrom(...HOST_METHODS), fc.anything()),
        fc.anything(),
        async (method, args) => {
          const reply = await answerCall(services, method, args);
          if (!reply.ok) expect(reply.problems.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 500 },
    );
    expect((await answerCall(services, 'savePreference', ['theme', 1])).ok).toBe(true);
    expect(served).toBeGreaterThan(0);
  });

  test('file names that lead anywhere are refused', async () => {
    const services = { saveTextFile: async (name: string) => name };
    for (const name of ['a.rimward', 'My eye 2.json', 'Ärztin_1.csv']) {
      expect((await answerCall(services, 'saveTextFile', [name, ''])).ok).toBe(true);
    }
    for (const name of ['../a', '/etc/x', 'a/b', 'a\\b', 'C:x', '.hidden', '', 'a\0b', 'a\nb', 'x'.repeat(121)]) {
      expect((await answerCall(services, 'saveTextFile', [name, ''])).ok).toBe(false);
    }
  });

  test("the page's end gives values, and turns a refusal into an error with its lines", async () => {
    const host = pageSideHost(async (method, args) =>
      method === 'hostInfo' ? { ok: true, value: args.length } : { ok: false, problems: ['one', 'two'] },
    );
    expect(await host.hostInfo()).toBe(0);
    await expect(host.loadPreferences()).rejects.toThrow('one\ntwo');
    expect(Object.keys(host).sort()).toEqual([...HOST_METHODS].sort());
  });
});
