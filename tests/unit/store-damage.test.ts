import { createHash } from 'node:crypto';
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { Refusal } from '../../src-main/ipc/answer.ts';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, madePerson, madeResult, scenario } from '../support/made-attempts.ts';

let folder: string;
const person = madePerson();
const path = (): string => join(folder, 'rimward.sqlite');
const fileDigest = (file: string): string => createHash('sha256').update(readFileSync(file)).digest('hex');
const asideFiles = (): string[] => readdirSync(folder).filter((name) => /^rimward-damaged-[\dT-]+\.sqlite$/.test(name));

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'damage-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A store with some finished attempts and one unfinished. Gives the ids. */
async function fill(attempts = 12): Promise<string[]> {
  const store = new Store(folder);
  const host = storeServices(store);
  await host.savePerson(person);
  const ids: string[] = [];
  for (let k = 0; k <= attempts; k++) {
    const id = await host.beginAttempt({
      personId: person.id,
      place: 'trial',
      scenario,
      seed: 1,
      modelVersion: 'test',
    });
    const commands = madeCommands(300, k);
    for (let at = 0; at < 300; at += 100) await host.appendCommands(id, at, commands.slice(at, at + 100));
    if (k < attempts) await host.finishAttempt(id, madeResult(300, k));
    ids.push(id);
  }
  store.close();
  return ids;
}

async function withStore<T>(work: (host: ReturnType<typeof storeServices>, store: Store) => Promise<T>): Promise<T> {
  const store = new Store(folder);
  try {
    return await work(storeServices(store), store);
  } finally {
    store.close();
  }
}

describe('a damaged store', () => {
  test('of garbage bytes is set aside as it was found, told of, and a new one begun', async () => {
    const garbage = Buffer.alloc(50_000, 'no database at all ');
    writeFileSync(path(), garbage);
    await withStore(async (host, store) => {
      expect(await host.listPeople()).toEqual([]);
      expect(store.notices().join()).toMatch(/damaged.*set aside as rimward-damaged-.*0 people and 0 attempts/);
      await host.savePerson(person);
    });
    expect(asideFiles()).toHaveLength(1);
    expect(readFileSync(join(folder, asideFiles()[0]))).toEqual(garbage);
    await withStore(async (host, store) => {
      expect(await host.listPeople()).toEqual([person]);
      expect(store.notices()).toEqual([]);
    });
  });

  test('cut short is set aside, and what lay before the cut is saved', async () => {
    const ids = await fill(30);
    const size = readFileSync(path()).length;
    truncateSync(path(), Math.floor(size * 0.6));
    const before = fileDigest(path());
    await withStore(async (host, store) => {
      const saved = await host.listAttempts({});
      expect(store.notices()).toHaveLength(1);
      expect(await host.listPeople()).toEqual([person]);
      const states = await Promise.all(saved.map(async ({ id }) => (await host.loadAttempt(id)).summary.seal));
      const whole = states.filter((state) => state === 'fits').length;
      console.log(`cut to 60 %: ${saved.length} of ${ids.length} lines and ${whole} whole attempts saved`);
      expect(whole).toBeGreaterThan(5);
      expect(saved.length).toBeLessThanOrEqual(ids.length);
    });
    expect(fileDigest(join(folder, asideFiles()[0]))).toBe(before);
  });

  test.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'with pages of nonsense in it (%i) loses at most what lay in them',
    async (seed) => {
      const ids = await fill();
      const bytes = readFileSync(path());
      const pages = bytes.length / 4096;
      for (let k = 0; k < 3; k++) {
        const page = 1 + ((seed * 7919 + k * 104729) % (pages - 1));
        bytes.fill(0xa5 ^ seed, page * 4096, (page + 1) * 4096);
      }
      writeFileSync(path(), bytes);
      await withStore(async (host, store) => {
        const saved = await host.listAttempts({});
        // Damage that no check of the structure can see lies inside an attempt and breaks its seal.
        const states = await Promise.all(
          saved.map(({ id }) =>
            host.loadAttempt(id).then(
              ({ summary }) => summary.seal,
              (fault) => (fault instanceof Refusal ? 'refused' : 'crashed'),
            ),
          ),
        );
        expect(states).not.toContain('crashed');
        for (const { id } of saved) expect(ids).toContain(id);
        const told = store.notices().length > 0 || states.some((state) => state === 'broken' || state === 'refused');
        const whole = saved.length === ids.length && !states.some((state) => state === 'broken' || state === 'refused');
        expect(told || whole).toBe(true);
        await host.savePerson(madePerson('After the damage'));
      });
    },
  );

  test('whose log is half written comes back to the last whole commit', async () => {
    const store = new Store(folder);
    const host = storeServices(store);
    await host.savePerson(person);
    const id = await host.beginAttempt({
      personId: person.id,
      place: 'trial',
      scenario,
      seed: 1,
      modelVersion: 'test',
    });
    const commands = madeCommands(300);
    for (let at = 0; at < 300; at += 15) await host.appendCommands(id, at, commands.slice(at, at + 15));
    // As a killed process leaves it: the files copied while the store is open.
    const killed = mkdtempSync(join(tmpdir(), 'killed-'));
    for (const part of ['', '-wal']) cpSync(path() + part, join(killed, `rimward.sqlite${part}`));
    store.close();
    const wal = join(killed, 'rimward.sqlite-wal');
    truncateSync(wal, readFileSync(wal).length - 5000);
    const again = new Store(killed);
    const { commands: found } = await storeServices(again).loadAttempt(id);
    expect(found.length % 15).toBe(0);
    expect(found.length).toBeGreaterThan(200);
    expect(found.length).toBeLessThan(300);
    expect(found).toEqual(commands.slice(0, found.length));
    expect(again.notices()).toEqual([]);
    again.close();
    rmSync(killed, { recursive: true });
  });

  test('emptied beside a log that holds everything is set aside with its log, not taken for new', async () => {
    const store = new Store(folder);
    await storeServices(store).savePerson(person);
    const killed = mkdtempSync(join(tmpdir(), 'killed-'));
    cpSync(`${path()}-wal`, join(killed, 'rimward.sqlite-wal'));
    store.close();
    writeFileSync(join(killed, 'rimward.sqlite'), '');
    const log = fileDigest(join(killed, 'rimward.sqlite-wal'));
    const again = new Store(killed);
    expect(again.notices().join()).toContain('set aside');
    again.close();
    const name = readdirSync(killed).find((one) => /^rimward-damaged.*-wal$/.test(one));
    expect(fileDigest(join(killed, String(name)))).toBe(log);
    rmSync(killed, { recursive: true });
  });

  test('damaged while it is open is refused with a line, and set aside at the next use', async () => {
    await fill(20);
    await withStore(async (host, store) => {
      expect(await host.listAttempts({})).toHaveLength(21);
      const bytes = readFileSync(path());
      bytes.fill(0x5a, 4096, bytes.length);
      writeFileSync(path(), bytes);
      await expect(host.openingShapes({ scenarioId: scenario.id })).rejects.toThrow(Refusal);
      await host.savePerson(person);
      expect(store.notices().join()).toContain('set aside');
    });
  });

  test('of another program is set aside and not written to', async () => {
    const other = new DatabaseSync(path());
    other.exec('CREATE TABLE notes (text TEXT); INSERT INTO notes VALUES (1)');
    other.close();
    const before = fileDigest(path());
    await withStore(async (_host, store) => expect(store.notices().join()).toContain('another program'));
    expect(fileDigest(join(folder, asideFiles()[0]))).toBe(before);
  });
});

describe('a store that cannot be used', () => {
  test('because another program is writing gives a line and loses nothing', async () => {
    await fill(1);
    const other = new DatabaseSync(path());
    other.exec('BEGIN IMMEDIATE');
    await withStore(async (host) => {
      await expect(host.savePerson(madePerson('Later'))).rejects.toThrow('Another program is using the store');
      expect(await host.listAttempts({})).toHaveLength(2);
      other.exec('COMMIT');
      await host.savePerson(madePerson('Later'));
      expect(await host.listPeople()).toHaveLength(2);
    });
    other.close();
  });

  test('because a newer Rimward made it is left as it is', async () => {
    await fill(1);
    const newer = new DatabaseSync(path());
    newer.exec('PRAGMA user_version = 99');
    newer.close();
    const before = fileDigest(path());
    await withStore(async (host, store) => {
      await expect(host.listPeople()).rejects.toThrow('newer Rimward');
      expect(store.notices().join()).toContain('newer Rimward');
    });
    expect(fileDigest(path())).toBe(before);
    expect(asideFiles()).toEqual([]);
  });

  test('because its disk is full refuses what does not fit, and keeps what is there', async () => {
    const ids = await fill(1);
    await withStore(async (host, store) => {
      // SQLite answers the same for a file at its largest as for a disk without room.
      store.use((database) => database.exec(`PRAGMA max_page_count = ${database.value('PRAGMA page_count')}`));
      const add = async () => {
        for (let k = 0; k < 50; k++) {
          const id = await host.beginAttempt({
            personId: person.id,
            place: 'bench',
            scenario,
            seed: 1,
            modelVersion: 'x',
          });
          await host.appendCommands(id, 0, madeCommands(3000, k));
        }
      };
      await expect(add()).rejects.toThrow('The disk is full');
      for (const id of ids) expect((await host.loadAttempt(id)).commands).toHaveLength(300);
    });
    await withStore(async (_host, store) => expect(store.notices()).toEqual([]));
  });

  test('because it may not be written to still gives what is in it', async () => {
    const [id] = await fill(1);
    await withStore(async (host, store) => {
      // SQLite answers the same as for a file that is read-only.
      store.use((database) => database.exec('PRAGMA query_only = ON'));
      await expect(host.savePerson(madePerson('Later'))).rejects.toThrow('may not be written to');
      expect((await host.loadAttempt(id)).summary.seal).toBe('fits');
      expect(await host.listPeople()).toEqual([person]);
    });
  });

  test('because a file is where its folder should be says so', async () => {
    writeFileSync(join(folder, 'taken'), '');
    const store = new Store(join(folder, 'taken'));
    await expect(storeServices(store).listPeople()).rejects.toThrow('a file is in its way');
    expect(store.notices().join()).toContain('a file is in its way');
  });

  test.skipIf(process.getuid?.() === 0 || process.platform === 'win32')(
    'because its folder is read-only says so (not as root, who may write anywhere)',
    async () => {
      const closed = join(folder, 'closed');
      mkdirSync(closed);
      chmodSync(closed, 0o500);
      await expect(storeServices(new Store(closed)).listPeople()).rejects.toThrow(Refusal);
      chmodSync(closed, 0o700);
    },
  );
});
