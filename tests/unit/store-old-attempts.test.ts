import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, scenario } from '../support/made-attempts.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'old-'));
  mkdirSync(join(folder, 'attempts'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const old = (seed: number, digest: string | null) => ({
  ...{ rimwardAttempt: 1, scenario, seed, modelVersion: '1', commands: madeCommands(50, seed), digest },
});
const put = (name: string, text: string): void => writeFileSync(join(folder, 'attempts', name), text);

describe('attempt files of an earlier version', () => {
  test('are taken in once, under one person, and moved aside; unreadable ones are kept apart and told of', async () => {
    put('a.json', JSON.stringify(old(1, 'abc')));
    put('b.json', JSON.stringify(old(2, null)));
    put('c.json', '{"rimwardAttempt":1,');
    put('notes.txt', 'left alone');
    const store = new Store(folder);
    const host = storeServices(store);
    expect(store.notices()).toEqual([
      'Attempts of an earlier version taken in, under "This machine": 2.',
      'Attempt files that could not be read, moved to attempts-not-readable in the data folder: 1.',
    ]);
    const list = await host.listAttempts({});
    expect(list).toHaveLength(2);
    expect(list[0]).toMatchObject({
      personName: 'This machine',
      steps: 50,
      seal: 'unsealed',
      ended: null,
      passed: null,
    });
    expect(await host.unfinishedAttempts()).toEqual([]);
    const played = list.find(({ digest }) => digest === 'abc');
    const { commands, result } = await host.loadAttempt(played?.id ?? '');
    expect(commands).toEqual(madeCommands(50, 1));
    expect(result).toBeNull();
    expect(await host.noteReplay(played?.id ?? '', 'abc')).toBe('same');
    expect(readdirSync(join(folder, 'attempts'))).toEqual(['notes.txt']);
    expect(readdirSync(join(folder, 'attempts-taken-in')).sort()).toEqual(['a.json', 'b.json']);
    expect(readFileSync(join(folder, 'attempts-not-readable', 'c.json'), 'utf8')).toBe('{"rimwardAttempt":1,');
    store.close();
  });

  test('that lie there again after a crash in between are not taken twice', async () => {
    put('a.json', JSON.stringify(old(1, 'abc')));
    const first = new Store(folder);
    first.notices();
    first.close();
    put('a.json', readFileSync(join(folder, 'attempts-taken-in', 'a.json'), 'utf8'));
    const again = new Store(folder);
    expect(await storeServices(again).listAttempts({})).toHaveLength(1);
    expect(await storeServices(again).listPeople()).toHaveLength(1);
    again.close();
  });
});
