import { readFileSync, writeFileSync } from 'node:fs';
import { deflateRawSync, gunzipSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { contentOf, ended, type Laptop, openLaptop } from '../support/store-fixture.ts';

/** Longest that any made-up file of a few kB may take, ms; a hang, not a measure of speed. */
const HANG_MS = 20_000;

let trainee: Laptop;
let teacher: Laptop;
let whole: Buffer;
let lines: string[];
let untouched: string;
const faults = vi.spyOn(console, 'error');

beforeAll(async () => {
  trainee = await openLaptop('Ada Example');
  teacher = await openLaptop('Tom Teacher');
  const ids = [await trainee.finished(1, 40), await trainee.finished(2, 40)];
  const file = trainee.file('x.rimward-bundle');
  await ended(trainee.jobs, trainee.jobs.exportTo(file, ids));
  whole = readFileSync(file.path);
  lines = gunzipSync(whole).toString().trim().split('\n');
  untouched = contentOf(teacher.store);
});
afterAll(() => {
  trainee.remove();
  teacher.remove();
});

const counts = { failed: 0, finished: 0 };

/** Takes a file in; whatever it is, the store is then as it was or holds only attempts whose seals fit. */
async function take(bytes: Uint8Array): Promise<void> {
  const file = teacher.file('fuzz.rimward-bundle');
  writeFileSync(file.path, bytes);
  const started = performance.now();
  const progress = await ended(teacher.jobs, teacher.jobs.importFrom(file));
  expect(performance.now() - started).toBeLessThan(HANG_MS);
  expect(['finished', 'failed']).toContain(progress.state);
  expect(progress.lines.length).toBeGreaterThan(0);
  expect(progress.lines.join()).not.toMatch(/inside the program|undefined|NaN|\[object/);
  expect(faults).not.toHaveBeenCalled();
  if (progress.state === 'failed') {
    counts.failed += 1;
    expect(contentOf(teacher.store)).toBe(untouched);
    return;
  }
  counts.finished += 1;
  for (const { id } of await teacher.host.listAttempts({})) {
    expect((await teacher.host.loadAttempt(id)).summary.seal).toBe('fits');
    await teacher.host.removeAttempt(id);
  }
  for (const { id } of await teacher.host.listPeople())
    if (id !== teacher.person.id) await teacher.host.removePerson(id);
  expect(contentOf(teacher.store)).toBe(untouched);
}

const check = (cases: number, bundle: fc.Arbitrary<Uint8Array>): Promise<void> =>
  fc.assert(fc.asyncProperty(bundle.map(shortly), take), { numRuns: cases });

/** A counterexample is named by its length, not by its thousands of bytes; the seed printed with it gives it again. */
const shortly = (bytes: Uint8Array): Uint8Array =>
  Object.assign(Uint8Array.from(bytes), { [fc.toStringMethod]: () => `${bytes.length} bytes` });

const zip = (text: readonly string[]): Uint8Array => gzipSync(text.map((line) => `${line}\n`).join(''));
const at = (): fc.Arbitrary<number> => fc.nat().map((k) => k % lines.length);

/** Values that programs are not ready for. */
const oddity = fc.oneof(
  fc.constantFrom<unknown>(null, true, '', 'x', -1, 0.5, 1e308, -0, 2 ** 53, 2 ** 31, [], {}, [[]], '../../etc/passwd'),
  fc.constantFrom<unknown>('\ud800', '\u0000', 'a'.repeat(5000), Array(500).fill(0), { length: 5 }, { toJSON: 1 }),
  fc.constantFrom<unknown>('00000000-0000-0000-0000-000000000000', '2026-13-45T99:99:99Z', "'; DROP TABLE people; --"),
  fc.jsonValue(),
);

/** Every place in a JSON value, as a path. */
function paths(data: unknown, path: readonly string[] = []): string[][] {
  if (typeof data !== 'object' || data === null) return [[...path]];
  const inside = Object.entries(data).slice(0, 40);
  return [[...path], ...inside.flatMap(([key, value]) => paths(value, [...path, key]))];
}

function changed(data: unknown, path: readonly string[], how: 'set' | 'remove', value: unknown): unknown {
  if (path.length === 0) return value;
  const copy = structuredClone(data) as Record<string, unknown>;
  let place = copy;
  for (const key of path.slice(0, -1)) place = place[key] as Record<string, unknown>;
  const last = path[path.length - 1];
  if (how === 'set') place[last] = value;
  else if (Array.isArray(place)) place.splice(Number(last), 1);
  else delete place[last];
  return copy;
}

describe('a bundle of any kind gives problems, and never a crash, a hang or a half import', {
  timeout: 300_000,
}, () => {
  test('the whole one, for comparison, goes in', async () => {
    await take(whole);
    expect(counts).toEqual({ failed: 0, finished: 1 });
  });

  test('half a character in the model version is a problem of the file', async () => {
    const at = lines.findIndex((line) => line.includes('"kind":"attempt"'));
    const data = { ...(JSON.parse(lines[at]) as object), modelVersion: '\ud800' };
    const before = counts.failed;
    await take(zip(lines.with(at, JSON.stringify(data))));
    expect(counts.failed).toBe(before + 1);
  });

  test('150 files of random bytes, some of them gzip', () =>
    check(
      150,
      fc.oneof(
        fc.uint8Array({ maxLength: 300 }),
        fc.uint8Array({ maxLength: 300 }).map((bytes) => gzipSync(bytes)),
        fc.uint8Array({ maxLength: 100 }).map((bytes) => Uint8Array.from([0x1f, 0x8b, 8, 0, ...bytes])),
        fc.uint8Array({ maxLength: 100 }).map((bytes) => deflateRawSync(bytes)),
      ),
    ));

  test('150 good ones cut short or with bytes changed', () =>
    check(
      150,
      fc.oneof(
        fc.nat().map((k) => whole.subarray(0, k % whole.length)),
        fc
          .array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), { minLength: 1, maxLength: 4 })
          .map((changes) => {
            const bytes = Uint8Array.from(whole);
            for (const [k, value] of changes) bytes[k % bytes.length] = value;
            return bytes;
          }),
        fc.uint8Array({ minLength: 1, maxLength: 50 }).map((more) => Uint8Array.from([...whole, ...more])),
      ),
    ));

  test('100 with lines left out, doubled, in another order, or with characters changed', () =>
    check(
      100,
      fc.oneof(
        fc.shuffledSubarray([0, 1, 2, 3, 4, 5]).map((order) => zip(order.map((k) => lines[k] ?? ''))),
        fc.array(at(), { maxLength: 9 }).map((order) => zip(order.map((k) => lines[k]))),
        fc.tuple(at(), fc.nat(), fc.string({ maxLength: 3 })).map(([k, place, text]) => {
          const from = place % lines[k].length;
          return zip(lines.with(k, lines[k].slice(0, from) + text + lines[k].slice(from + 1)));
        }),
        fc.array(fc.json({ maxDepth: 5 }), { maxLength: 5 }).map(zip),
        fc.array(fc.json(), { maxLength: 3 }).map((more) => zip([lines[0], ...more, ...lines.slice(1)])),
      ),
    ));

  test('250 with one value of another type, out of range, or missing', () =>
    check(
      250,
      fc
        .tuple(at(), fc.nat(), fc.constantFrom('set' as const, 'set' as const, 'remove' as const), oddity)
        .map(([k, place, how, value]) => {
          const data: unknown = JSON.parse(lines[k]);
          const every = paths(data);
          return zip(lines.with(k, JSON.stringify(changed(data, every[place % every.length], how, value)) ?? ''));
        }),
    ));

  test('50 that swell: long lines, many lines, deep nesting, huge numbers', () =>
    check(
      50,
      fc
        .tuple(fc.constantFrom(1, 2, 3, 18), fc.constantFrom('[', '{"a":', 'a', '\n', ' ', '9', '{"kind":"end"}\n'))
        .map(([millions, text]) =>
          gzipSync(`${lines[0]}\n${text.repeat((millions * 1e6) / text.length)}`, { level: 1 }),
        ),
    ));

  test('none of it was for nothing: both outcomes were seen', () => {
    console.log(`fuzz of bundles: ${counts.failed} refused, ${counts.finished} taken in`);
    expect(counts.failed).toBeGreaterThan(400);
    expect(counts.finished).toBeGreaterThan(3);
  });
});
