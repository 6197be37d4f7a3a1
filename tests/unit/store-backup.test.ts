import { randomUUID } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Scenario } from '../../physics/index.ts';
import { keptData } from '../../src-main/files/kept-data.ts';
import { ownScenarios } from '../../src-main/store/own-scenarios.ts';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, scenario } from '../support/made-attempts.ts';
import { contentOf, ended, type Laptop, openLaptop } from '../support/store-fixture.ts';

let laptop: Laptop;
beforeEach(async () => {
  laptop = await openLaptop();
});
afterEach(() => laptop.remove());

const backup = () => laptop.file('all.rimward-store');
const backedUp = async () => ended(laptop.jobs, laptop.jobs.backupTo(backup()));
const restored = async (file = backup()) => ended(laptop.jobs, laptop.jobs.restoreFrom(file));
const aside = (): string[] => readdirSync(laptop.folder).filter((name) => name.startsWith('rimward-before-restore-'));

describe('a backup', () => {
  test('is one file with all that is kept, and brings it back; the store of now is set aside whole', async () => {
    const ids = [await laptop.finished(1), await laptop.finished(2)];
    await laptop.host.saveClass({ id: randomUUID(), name: 'Autumn', memberIds: [laptop.person.id] });
    const open = await laptop.host.beginAttempt({
      ...{ personId: laptop.person.id, place: 'bench', scenario, seed: 1, modelVersion: 'test' },
    });
    await laptop.host.appendCommands(open, 0, madeCommands(30));
    const before = contentOf(laptop.store);
    const made = await backedUp();
    expect(made.state).toBe('finished');
    expect(made.lines[0]).toContain('3 attempts');
    expect(readdirSync(laptop.folder).filter((name) => name.startsWith('all.'))).toEqual(['all.rimward-store']);

    await laptop.host.removeAttempt(ids[0]);
    await laptop.host.removeAttempt(open);
    const later = contentOf(laptop.store);
    const back = await restored();
    expect(back.lines[0]).toBe('Restored: 1 people, 3 attempts.');
    expect(contentOf(laptop.store)).toBe(before);
    for (const id of ids) expect((await laptop.host.loadAttempt(id)).summary.seal).toBe('fits');
    expect(await laptop.host.unfinishedAttempts()).toMatchObject([{ id: open, steps: 30 }]);

    const [name] = aside();
    expect(back.lines[1]).toContain(name);
    const other = join(laptop.folder, 'other');
    mkdirSync(other);
    copyFileSync(join(laptop.folder, name), join(other, 'rimward.sqlite'));
    const set = new Store(other);
    expect(contentOf(set)).toBe(later);
    set.close();
  });

  test('goes on while attempts are being appended to', async () => {
    await laptop.finished(1, 3000);
    const id = await laptop.host.beginAttempt({
      ...{ personId: laptop.person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' },
    });
    const job = laptop.jobs.backupTo(backup());
    let at = 0;
    const commands = madeCommands(3000);
    while (laptop.jobs.progress(job.id).state === 'running') {
      await laptop.host.appendCommands(id, at, commands.slice(at, at + 15));
      at += 15;
      await new Promise((resolve) => setImmediate(resolve));
    }
    expect(laptop.jobs.progress(job.id).state).toBe('finished');
    expect((await laptop.host.loadAttempt(id)).commands).toHaveLength(at);
    expect((await restored()).state).toBe('finished');
    expect((await laptop.host.listAttempts({})).length).toBe(2);
  });

  test('that is damaged, cut short, of another program or of a newer one is refused, and nothing changes', async () => {
    await laptop.finished(1);
    await laptop.finished(2);
    await backedUp();
    const whole = readFileSync(backup().path);
    const before = contentOf(laptop.store);
    const tries: [string, () => void, RegExp][] = [
      ['text', () => writeFileSync(backup().path, 'a text'), /no backup of a store/],
      ['empty', () => writeFileSync(backup().path, ''), /no backup of a store/],
      ['cut', () => truncateSync(backup().path, Math.floor(whole.length / 8192) * 4096), /damaged|not whole/],
      [
        'a page of nonsense',
        () => {
          const bytes = Buffer.from(whole);
          bytes.fill(0xa5, 4096, 8192);
          writeFileSync(backup().path, bytes);
        },
        /damaged|not whole/,
      ],
      [
        'another program',
        () => {
          const database = new DatabaseSync(backup().path);
          database.exec('PRAGMA application_id = 7');
          database.close();
        },
        /another program/,
      ],
      [
        'newer',
        () => {
          const database = new DatabaseSync(backup().path);
          database.exec('PRAGMA user_version = 99');
          database.close();
        },
        /newer/,
      ],
    ];
    for (const [title, damage, line] of tries) {
      writeFileSync(backup().path, whole);
      damage();
      const progress = await restored();
      expect(progress.state, title).toBe('failed');
      expect(progress.lines.join(), title).toMatch(line);
      expect(contentOf(laptop.store), title).toBe(before);
      expect(aside(), title).toEqual([]);
      expect(
        readdirSync(laptop.folder).filter((name) => /rimward-(new|restore)/.test(name)),
        title,
      ).toEqual([]);
    }
  });

  test('brings its content only: triggers and views that somebody put in are left behind', async () => {
    await laptop.finished(1);
    await backedUp();
    const database = new DatabaseSync(backup().path);
    database.exec(`CREATE TRIGGER evil AFTER INSERT ON people BEGIN DELETE FROM attempts; END;
      CREATE VIEW more AS SELECT * FROM people;`);
    database.close();
    expect((await restored()).state).toBe('finished');
    const objects = laptop.store.use((open) =>
      open.all("SELECT name FROM sqlite_schema WHERE type IN ('trigger', 'view')"),
    );
    expect(objects).toEqual([]);
    await laptop.host.savePerson({ ...laptop.person, id: randomUUID() });
    expect(await laptop.host.listAttempts({})).toHaveLength(1);
  });

  test('is not restored while another program has the store open', async () => {
    await laptop.finished(1);
    await backedUp();
    const other = new Store(laptop.folder);
    await storeServices(other).listPeople();
    const progress = await restored();
    expect(progress).toMatchObject({ state: 'failed' });
    expect(progress.lines[0]).toContain('Another Rimward has the store open');
    expect(aside()).toEqual([]);
    expect(await laptop.host.listAttempts({})).toHaveLength(1);
    other.close();
    expect((await restored()).state).toBe('finished');
  });

  test('that cannot be written leaves no file', async () => {
    const nowhere = { path: join(laptop.folder, 'no-such', 'x'), name: 'x' };
    expect((await ended(laptop.jobs, laptop.jobs.backupTo(nowhere))).state).toBe('failed');
    expect(existsSync(nowhere.path)).toBe(false);
  });
});

describe('what lies beside the store', () => {
  const own = () => ownScenarios(laptop.folder);
  const mine = (id: string, title: string): Scenario => ({ ...scenario, id, title });
  const limit = async () => (await keptData(laptop.folder).loadPreferences())['cusum.acceptable'];
  const asideFolders = (): string[] =>
    readdirSync(laptop.folder).filter((name) => name.startsWith('scenarios-') || name.startsWith('rimward-before'));

  beforeEach(async () => {
    await laptop.finished(1);
    await own().saveOwnScenario(mine('mine', 'First'));
    await own().saveEyeDrafts('{"drafts": []}');
    await own().saveBoards('{"boards": []}');
    await keptData(laptop.folder).savePreference('cusum.acceptable', 0.07);
    await keptData(laptop.folder).savePreference('view.theme', 'room');
    expect((await backedUp()).state).toBe('finished');
    await own().saveOwnScenario(mine('mine', 'Second'));
    await own().saveOwnScenario(mine('other', 'Later'));
    await own().saveEyeDrafts('');
    await own().saveBoards('{"boards": [1]}');
    await keptData(laptop.folder).savePreference('cusum.acceptable', 0.12);
    await keptData(laptop.folder).savePreference('view.theme', 'projector');
  });

  test('scenarios, drafts, boards and the limits of the course come back; those of now are set aside', async () => {
    const back = await restored();
    expect(back.lines.join()).toContain('1 scenario of your own');
    expect(await own().listOwnScenarios()).toEqual([mine('mine', 'First')]);
    expect(await own().loadEyeDrafts()).toBe('{"drafts": []}');
    expect(await own().loadBoards()).toBe('{"boards": []}');
    expect(await limit()).toBe(0.07);
    expect((await keptData(laptop.folder).loadPreferences())['view.theme']).toBe('projector');
    const [name] = asideFolders().filter((one) => one.startsWith('scenarios-'));
    expect(back.lines.join()).toContain(name);
    expect(readdirSync(join(laptop.folder, name)).sort()).toEqual([
      ...['lecture-boards.json', 'scenario-mine.json', 'scenario-other.json'],
    ]);
    expect(readFileSync(join(laptop.folder, name, 'scenario-mine.json'), 'utf8')).toContain('Second');
  });

  const changed = (sql: string): void => {
    const database = new DatabaseSync(backup().path);
    database.exec(sql);
    database.close();
  };

  test('a backup of an older program leaves them as they are and says so', async () => {
    changed('DROP TABLE own_files; DROP TABLE course_limits;');
    const back = await restored();
    expect(back.state).toBe('finished');
    expect(back.lines.join()).toContain('those that are here were left');
    expect(await own().listOwnScenarios()).toHaveLength(2);
    expect(await limit()).toBe(0.12);
  });

  test('what is no file of ours is refused with a line for each, and nothing changes', async () => {
    changed(`INSERT INTO own_files VALUES ('../preferences.json', '{}'), ('scenario-torn.json', '{"id": "to'),
      ('scenario-a.json', '{"rimwardScenario": 1, "id": "b"}'), ('scenario-null.json', 'null');`);
    const before = contentOf(laptop.store);
    const progress = await restored();
    expect(progress.state).toBe('failed');
    expect(progress.lines).toEqual([
      'own scenarios: ../preferences.json is no file of ours',
      'own scenarios: scenario-a.json is no scenario of that name',
      'own scenarios: scenario-null.json is no scenario of that name',
      'own scenarios: scenario-torn.json is not JSON',
    ]);
    expect(contentOf(laptop.store)).toBe(before);
    expect(asideFolders()).toEqual([]);
    expect(await own().listOwnScenarios()).toEqual([mine('mine', 'Second'), mine('other', 'Later')]);
  });

  test('too many files, or one too large, are refused before they are read', async () => {
    changed(`WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 600)
      INSERT INTO own_files SELECT 'scenario-x' || i || '.json', '{}' FROM n;`);
    expect((await restored()).lines[0]).toMatch(/found 603 files, allowed: at most 502/);
    changed("DELETE FROM own_files; INSERT INTO own_files VALUES ('eye-drafts.json', printf('%.*c', 10000001, 'x'));");
    expect((await restored()).lines[0]).toMatch(/found a file of 10000001 characters/);
    expect(await own().listOwnScenarios()).toHaveLength(2);
  });

  test('limits that make no sense are left as they are here', async () => {
    changed("UPDATE course_limits SET value = 7; INSERT INTO course_limits VALUES ('view.theme', 1);");
    expect((await restored()).state).toBe('finished');
    expect(await limit()).toBe(0.12);
    expect((await keptData(laptop.folder).loadPreferences())['view.theme']).toBe('projector');
  });
});
