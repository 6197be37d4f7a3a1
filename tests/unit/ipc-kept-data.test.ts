import { randomUUID } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { writeTextAtomically } from '../../src-main/files/atomic-write.ts';
import { dataFolder, dataFolderOf } from '../../src-main/files/data-folder.ts';
import { keptData } from '../../src-main/files/kept-data.ts';
import { answerCall } from '../../src-main/ipc/answer.ts';
import { HOST_METHODS } from '../../src-main/ipc/contract.ts';
import { callArguments } from '../../src-main/ipc/messages.ts';
import { pageSideHost } from '../../src-main/ipc/page-side.ts';
import { madeCommands, madePerson, madeResult } from '../support/made-attempts.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kept-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('kept data', () => {
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

  test('the folder can be moved by an argument, which is taken out of the others', () => {
    const env = { RIMWARD_DATA: '/usual' };
    expect(dataFolderOf(['a', '--data', '/there', 'b'], env)).toEqual({ folder: '/there', rest: ['a', 'b'] });
    expect(dataFolderOf(['--data=/there'], env)).toEqual({ folder: '/there', rest: [] });
    expect(dataFolderOf(['a'], env)).toEqual({ folder: '/usual', rest: ['a'] });
    for (const args of [['--data'], ['--data', '--port'], ['--data='], ['--data', '']]) {
      expect(dataFolderOf(args, env)).toHaveProperty('problem');
    }
  });
});

describe('messages', () => {
  test('every method has a schema, and no schema is without a method', () => {
    expect(Object.keys(callArguments).sort()).toEqual([...HOST_METHODS].sort());
  });

  test('commands with a number that is none, or too many of them, are refused', async () => {
    const services = { appendCommands: async () => undefined };
    const id = randomUUID();
    const append = (commands: unknown, from: unknown = 0) =>
      answerCall(services, 'appendCommands', [id, from, commands]);
    const [command] = madeCommands(1);
    expect((await append([command])).ok).toBe(true);
    for (const x_mm of [Number.NaN, Number.POSITIVE_INFINITY, '1', null]) {
      expect((await append([{ ...command, x_mm }])).ok).toBe(false);
    }
    for (const jaws of [-0.1, 1.1]) expect((await append([{ ...command, jaws }])).ok).toBe(false);
    expect((await append([{ ...command, extra: 1 }])).ok).toBe(false);
    expect((await append(Array(3601).fill(command))).ok).toBe(false);
    for (const from of [-1, 0.5, '0']) expect((await append([command], from)).ok).toBe(false);
  });

  test('people with odd names, ids that are none and results with a hole are refused', async () => {
    const services = { savePerson: async () => undefined, finishAttempt: async () => ({}) as never };
    const person = madePerson();
    const save = async (changed: object) => (await answerCall(services, 'savePerson', [{ ...person, ...changed }])).ok;
    expect(await save({})).toBe(true);
    for (const name of ['', ' x', 'x ', 'a\nb', 'x'.repeat(81), 5]) expect(await save({ name })).toBe(false);
    expect(await save({ id: '../x' })).toBe(false);
    expect(await save({ colour: 'red' })).toBe(false);
    const finish = async (changed: object) =>
      (await answerCall(services, 'finishAttempt', [randomUUID(), { ...madeResult(10), ...changed }])).ok;
    expect(await finish({})).toBe(true);
    expect(await finish({ work: { ...madeResult(10).work, time_s: Number.NaN } })).toBe(false);
    expect(await finish({ ended: 'somehow' })).toBe(false);
    expect(await finish({ outline_mm: [[1]] })).toBe(false);
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
