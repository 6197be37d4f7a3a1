import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { keptData } from '../../src-main/files/kept-data.ts';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, madePerson, scenario } from '../support/made-attempts.ts';

/** A disk of its own, small enough to be filled: only root may mount one, and only Linux has this kind. */
const disk = mkdtempSync(join(tmpdir(), 'small-disk-'));
const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', disk]).status === 0;

let store: Store;

beforeAll(() => {
  store = new Store(disk);
});
afterAll(() => {
  store.close();
  if (mounted) spawnSync('umount', [disk]);
  rmSync(disk, { recursive: true, force: true });
});

describe.skipIf(!mounted)('a disk that is full (needs root on Linux to mount a small one)', () => {
  test('takes no more, says so, loses nothing it took, and goes on when there is room again', async () => {
    const host = storeServices(store);
    const preferences = keptData(disk);
    await preferences.savePreference('theme', 'room');
    const person = madePerson();
    await host.savePerson(person);
    const start = { personId: person.id, place: 'trial' as const, scenario, seed: 1, modelVersion: 'test' };
    const id = await host.beginAttempt(start);
    await host.appendCommands(id, 0, madeCommands(300));

    let size = 4_000_000;
    for (let filler = 0; size > 0; ) {
      try {
        writeFileSync(join(disk, `filler-${filler++}`), Buffer.alloc(size));
      } catch {
        size = Math.floor(size / 2);
      }
    }
    const commands = madeCommands(60_000);
    let taken = 300;
    const fill = async (): Promise<void> => {
      for (; taken < commands.length; taken += 300)
        await host.appendCommands(id, taken, commands.slice(taken, taken + 300));
    };
    await expect(fill()).rejects.toThrow('The disk is full. Nothing was changed');
    await expect(preferences.savePreference('theme', 'projector')).rejects.toThrow('The disk is full');
    expect(await preferences.loadPreferences()).toEqual({ theme: 'room' });
    expect(readdirSync(disk).filter((name) => name.endsWith('.part'))).toEqual([]);
    expect((await host.loadAttempt(id)).commands).toHaveLength(taken);

    for (const name of readdirSync(disk).filter((one) => one.startsWith('filler'))) rmSync(join(disk, name));
    await host.appendCommands(id, taken, commands.slice(taken, taken + 300));
    await preferences.savePreference('theme', 'projector');
    expect(await preferences.loadPreferences()).toEqual({ theme: 'projector' });
    store.close();
    const again = new Store(disk);
    expect(again.notices()).toEqual([]);
    expect((await storeServices(again).loadAttempt(id)).commands).toEqual(commands.slice(0, taken + 300));
    again.close();
  });
});
