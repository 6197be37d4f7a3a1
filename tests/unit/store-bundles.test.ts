import { createHash, randomUUID } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { gunzipSync, gzipSync } from 'node:zlib';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { BUNDLE_LIMITS } from '../../src-main/store/bundle-format.ts';
import { importBundle } from '../../src-main/store/import-bundle.ts';
import { Jobs } from '../../src-main/store/jobs.ts';
import { madePerson } from '../support/made-attempts.ts';
import { contentOf, ended, type Laptop, openLaptop } from '../support/store-fixture.ts';

let trainee: Laptop;
let teacher: Laptop;

beforeEach(async () => {
  trainee = await openLaptop('Ada Example');
  teacher = await openLaptop('Tom Teacher');
});
afterEach(() => {
  trainee.remove();
  teacher.remove();
});

const bundle = () => trainee.file('ada.rimward-bundle');
const linesIn = (path: string): Record<string, unknown>[] =>
  gunzipSync(readFileSync(path))
    .toString()
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
const writeLines = (path: string, lines: readonly unknown[]): void =>
  writeFileSync(path, gzipSync(lines.map((line) => `${JSON.stringify(line)}\n`).join('')));

async function sent(seeds: readonly number[]): Promise<string[]> {
  const ids: string[] = [];
  for (const seed of seeds) ids.push(await trainee.finished(seed));
  const progress = await ended(trainee.jobs, trainee.jobs.exportTo(bundle(), ids));
  expect(progress).toMatchObject({ state: 'finished', done: seeds.length, of: seeds.length });
  return ids;
}

const taken = async (file = bundle()) => ended(teacher.jobs, teacher.jobs.importFrom(file));

describe('a bundle', () => {
  test('carries attempts, their people and scenarios to another laptop, whole and with their seals', async () => {
    const ids = await sent([1, 2, 3, 4, 5]);
    const progress = await taken();
    expect(progress).toMatchObject({ state: 'finished', lines: ['Taken in: 5 attempts.'] });
    expect(progress.toReplay).toHaveLength(3);
    for (const id of progress.toReplay ?? []) expect(ids).toContain(id);
    for (const id of ids) {
      const here = await trainee.host.loadAttempt(id);
      const there = await teacher.host.loadAttempt(id);
      expect(there).toEqual({ ...here, summary: { ...here.summary, fromBundle: 'ada.rimward-bundle' } });
      expect(there.summary.seal).toBe('fits');
    }
    expect((await teacher.host.listPeople()).map(({ name }) => name)).toEqual(['Ada Example', 'Tom Teacher']);
    expect(await teacher.host.openingShapes({})).toEqual(await trainee.host.openingShapes({}));
    expect(await teacher.host.listAttempts({ fromBundle: 'ada.rimward-bundle' })).toHaveLength(5);
  });

  test('keeps each scenario and each person once', async () => {
    await sent([1, 2, 3]);
    const kinds = linesIn(bundle().path).map(({ kind }) => kind ?? 'header');
    expect(kinds).toEqual(['header', 'person', 'scenario', 'attempt', 'attempt', 'attempt', 'end']);
  });

  test('taken in twice changes nothing the second time', async () => {
    await sent([1, 2, 3]);
    await taken();
    const before = contentOf(teacher.store);
    expect((await taken()).lines).toEqual(['Taken in: 0 attempts.', 'Here already: 3 attempts.']);
    expect(contentOf(teacher.store)).toBe(before);
  });

  test('with an attempt that is here under the same id with other content keeps both and says so', async () => {
    const [id] = await sent([1]);
    await taken();
    // The same id grows another content on the first laptop: removed, made again, and given the old id.
    await trainee.host.removeAttempt(id);
    const other = await trainee.finished(2);
    trainee.store.use((database) => database.run('UPDATE attempts SET id = ? WHERE id = ?', id, other));
    const { entryDigest } = await import('../../src-main/store/entry.ts');
    trainee.store.use((database) => {
      const row = database.one('SELECT * FROM attempts') as never;
      database.run('UPDATE attempts SET entry_digest = ?', entryDigest(row));
    });
    await ended(trainee.jobs, trainee.jobs.exportTo(bundle(), [id]));
    const before = await teacher.host.loadAttempt(id);
    const { lines } = await taken();
    expect(lines[1]).toMatch(
      new RegExp(`^Kept beside: attempt ${id} is here with other content; that of the bundle is now`),
    );
    expect(await teacher.host.loadAttempt(id)).toEqual(before);
    const all = await teacher.host.listAttempts({});
    expect(all).toHaveLength(2);
    const beside = all.find((one) => one.id !== id)?.id ?? '';
    expect((await teacher.host.loadAttempt(beside)).summary.seal).toBe('fits');
    expect((await taken()).lines).toContain('Here already: 1 attempt.');
  });

  test('with a known person under another name keeps the name that is here and says so', async () => {
    await sent([1]);
    await teacher.host.savePerson({ ...trainee.person, name: 'A. Example' });
    const { lines } = await taken();
    expect(lines).toContain('The bundle calls A. Example "Ada Example"; the name here was kept.');
    expect((await teacher.host.listPeople()).map(({ name }) => name)).toEqual(['A. Example', 'Tom Teacher']);
  });

  test('with another person of the same name keeps the two apart and says so', async () => {
    await sent([1]);
    await teacher.host.savePerson(madePerson('Ada Example'));
    expect((await taken()).lines[1]).toContain('two people called Ada Example');
    expect(await teacher.host.listPeople()).toHaveLength(3);
  });

  test('leaves out and names unfinished attempts, unknown ones, and those whose seal is broken', async () => {
    const [good, broken] = [await trainee.finished(1), await trainee.finished(2)];
    const open = await trainee.host.beginAttempt({
      personId: trainee.person.id,
      place: 'bench',
      scenario: (await trainee.host.loadAttempt(good)).scenario,
      seed: 1,
      modelVersion: 'test',
    });
    trainee.store.use((database) => database.run('UPDATE attempts SET passed = 1 - passed WHERE id = ?', broken));
    const unknown = randomUUID();
    const { lines } = await ended(trainee.jobs, trainee.jobs.exportTo(bundle(), [good, broken, open, unknown]));
    expect(lines).toEqual([
      'Written: 1 of 4 attempts.',
      `Left out: attempt ${broken}, whose seal is broken.`,
      `Left out: attempt ${open}, which is not finished or has no measurements.`,
      `Left out: attempt ${unknown}, which is not here any more.`,
    ]);
    expect((await taken()).lines[0]).toBe('Taken in: 1 attempt.');
  });

  test('whose attempt was changed on the way is taken in without it, and says which', async () => {
    const ids = await sent([1, 2, 3]);
    const lines = linesIn(bundle().path);
    const changed = lines[4] as { result: { passed: boolean } };
    changed.result.passed = !changed.result.passed;
    writeLines(bundle().path, lines);
    const progress = await taken();
    expect(progress.lines).toEqual([
      'Taken in: 2 attempts.',
      `Left out: attempt ${ids[1]}, its seal does not fit what is in it.`,
    ]);
    expect((await teacher.host.listAttempts({})).map(({ id }) => id)).not.toContain(ids[1]);
  });

  test('cut short, with a line missing, in another order or of another version is refused and leaves nothing', async () => {
    await sent([1, 2, 3]);
    const lines = linesIn(bundle().path);
    const whole = readFileSync(bundle().path);
    const before = contentOf(teacher.store);
    const tries: [string, () => void, RegExp][] = [
      ['cut file', () => writeFileSync(bundle().path, whole.subarray(0, whole.length - 40)), /cut short/],
      ['no end', () => writeLines(bundle().path, lines.slice(0, -1)), /its end is missing/],
      [
        'one attempt fewer',
        () => writeLines(bundle().path, lines.toSpliced(3, 1)),
        /2 attempts where the end speaks of 3/,
      ],
      ['no person', () => writeLines(bundle().path, lines.toSpliced(1, 1)), /person is not before it/],
      ['no scenario', () => writeLines(bundle().path, lines.toSpliced(2, 1)), /scenario is not before it/],
      ['twice', () => writeLines(bundle().path, lines.toSpliced(4, 0, lines[3])), /Found attempt \S+ twice/],
      ['more after the end', () => writeLines(bundle().path, [...lines, lines[3]]), /after the end/],
      [
        'newer',
        () => writeLines(bundle().path, [{ ...lines[0], rimwardBundle: 2 }, ...lines.slice(1)]),
        /rimwardBundle/,
      ],
      ['plain text', () => writeFileSync(bundle().path, 'a text'), /not gzip/],
      ['empty', () => writeFileSync(bundle().path, ''), /empty|cut short/],
      [
        'scenario changed',
        () => {
          const other = { ...(lines[2].scenario as object), timeLimit_s: 1 };
          writeLines(bundle().path, lines.toSpliced(2, 1, { ...lines[2], scenario: other }));
        },
        /does not have the digest/,
      ],
      [
        'scenario out of range',
        () => {
          const other = { ...(lines[2].scenario as Record<string, object>), timeLimit_s: -5 };
          const keys = Object.keys(other).sort();
          expect(keys.length).toBeGreaterThan(5);
          writeLines(bundle().path, lines.toSpliced(2, 1, { ...lines[2], scenario: other, digest: digestOf(other) }));
        },
        /timeLimit_s/,
      ],
    ];
    const { canonicalJson } = await import('../../src-main/store/seal.ts');
    function digestOf(data: unknown): string {
      return createHash('sha256').update(canonicalJson(data)).digest('hex');
    }
    for (const [title, damage, line] of tries) {
      damage();
      const progress = await taken();
      expect(progress.state, title).toBe('failed');
      expect(progress.lines.join(' '), title).toMatch(line);
      expect(contentOf(teacher.store), title).toBe(before);
    }
    writeFileSync(bundle().path, whole);
    expect((await taken()).state).toBe('finished');
  });

  test('cancelled while it is read leaves nothing, and the next one goes in', async () => {
    await sent(Array.from({ length: 40 }, (_, k) => k + 1));
    const before = contentOf(teacher.store);
    const job = teacher.jobs.importFrom(bundle());
    expect(() => teacher.jobs.importFrom(bundle())).toThrow('Another file');
    let seen = 0;
    const progress = await ended(teacher.jobs, job, ({ done }) => {
      seen = done;
      if (done > 3) teacher.jobs.cancel(job.id);
    });
    expect(seen).toBeGreaterThan(3);
    expect(progress).toMatchObject({ state: 'cancelled', lines: ['Cancelled. Nothing was changed.'] });
    expect(contentOf(teacher.store)).toBe(before);
    expect((await taken()).lines[0]).toBe('Taken in: 40 attempts.');
  });

  test('whose writing fails or is cancelled leaves no file', async () => {
    const ids = [await trainee.finished(1)];
    const nowhere = { path: `${trainee.folder}/no-such-folder/x.rimward-bundle`, name: 'x.rimward-bundle' };
    expect((await ended(trainee.jobs, trainee.jobs.exportTo(nowhere, ids))).state).toBe('failed');
    const job = trainee.jobs.exportTo(bundle(), ids);
    trainee.jobs.cancel(job.id);
    expect((await ended(trainee.jobs, job)).state).toBe('cancelled');
    expect(existsSync(bundle().path)).toBe(false);
    expect(readdirSync(trainee.folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});

describe('a bundle that wants too much', () => {
  const refused = async (limits: Partial<typeof BUNDLE_LIMITS>): Promise<string> => {
    const jobs = new Jobs();
    const before = contentOf(teacher.store);
    const database = teacher.store.use((opened) => opened);
    const job = jobs.start('x', (control) =>
      importBundle(database, bundle().path, 'x', control, { ...BUNDLE_LIMITS, ...limits }),
    );
    for (;;) {
      const progress = jobs.progress(job.id);
      if (progress.state === 'failed') {
        expect(contentOf(teacher.store)).toBe(before);
        return progress.lines.join(' ');
      }
      if (progress.state === 'finished') return 'taken in';
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  };

  test('is refused by its size, its text, a line, the number of attempts, people or scenarios', async () => {
    await sent([1, 2, 3]);
    expect(await refused({ file_bytes: statSync(bundle().path).size - 1 })).toContain('The file has');
    expect(await refused({ text_bytes: 40_000 })).toContain('of text in it');
    expect(await refused({ line_bytes: 2000 })).toContain('line longer');
    expect(await refused({ attempts: 2 })).toContain('3 attempts; at most 2');
    expect(await refused({ people: 0 })).toContain('more than 0 persons');
    expect(await refused({ scenarios: 0 })).toContain('more than 0 scenarios');
    expect(await refused({})).toBe('taken in');
  });

  test('is refused early when it swells: a hundred megabytes of one letter, in a line or in many', async () => {
    const header = `${JSON.stringify({ rimwardBundle: 1, program: 'x', madeAt: '2026-01-01T00:00:00.000Z', attempts: 1 })}\n`;
    for (const filler of [Buffer.alloc(100_000_000, 'a'), Buffer.alloc(100_000_000, '\n')]) {
      writeFileSync(bundle().path, gzipSync(Buffer.concat([Buffer.from(header), filler])));
      expect(statSync(bundle().path).size).toBeLessThan(200_000);
      const started = performance.now();
      const line = await refused({});
      console.log(`bomb of 100 MB refused in ${Math.round(performance.now() - started)} ms: ${line}`);
      expect(line).toMatch(/line longer|not JSON|packed more than/);
    }
  });

  test('is refused when it promises fewer attempts than it has, or nests deeper than can be read', async () => {
    await sent([1]);
    const lines = linesIn(bundle().path);
    const deep = `{"kind":"scenario","digest":"${'0'.repeat(64)}","scenario":{"rimwardScenario":1,"id":"x","title":"x","a":${'['.repeat(200_000)}${']'.repeat(200_000)}}}`;
    writeFileSync(bundle().path, gzipSync(`${JSON.stringify(lines[0])}\n${deep}\n`));
    expect(await refused({})).toMatch(/no canonical form|not JSON/);
  });
});
