import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, madePerson } from '../support/made-attempts.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const KILLS = 50;
/** A quarter of a second of world steps: the most that may be lost. */
const STEPS_PER_APPEND = 15;
const LONGEST_LIFE_MS = 120;

let folder: string;
let bundle: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'killed-'));
  bundle = join(folder, 'child');
  await build({
    root: ROOT,
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true },
    build: {
      ssr: 'tests/support/appending-child.ts',
      outDir: bundle,
      target: 'node24',
      minify: false,
      rolldownOptions: { output: { entryFileNames: 'child.mjs' } },
    },
  });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Life {
  readonly id: string;
  readonly made: number;
  readonly kept: number;
}

/** Lets a child append for a random time after its first append, kills it, and gives what it said before. */
async function killedAtRandom(data: string, personId: string): Promise<Life> {
  const child: ChildProcess = spawn(process.execPath, [join(bundle, 'child.mjs'), data, personId], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  let timer: NodeJS.Timeout | null = null;
  child.stdout?.on('data', (chunk: Buffer) => {
    said += chunk.toString();
    if (timer === null && said.includes('kept ')) {
      timer = setTimeout(() => child.kill('SIGKILL'), Math.random() * LONGEST_LIFE_MS);
    }
  });
  const signal = await new Promise((resolve) => child.once('close', (_code, by) => resolve(by)));
  expect(signal).toBe('SIGKILL');
  const last = (word: string): number => Number([...said.matchAll(new RegExp(`^${word} (\\d+)$`, 'gm'))].at(-1)?.[1]);
  return { id: /^attempt (\S+)$/m.exec(said)?.[1] ?? '', made: last('made'), kept: last('kept') };
}

describe('a program that is killed in the middle of an attempt', () => {
  test(`leaves a sound store, and at most a quarter of a second is lost, ${KILLS} times over`, {
    timeout: 300_000,
  }, async () => {
    const data = join(folder, 'data');
    const person = madePerson();
    const wanted = madeCommands(150_000, 5);
    const first = new Store(data);
    await storeServices(first).savePerson(person);
    first.close();
    const lost: number[] = [];
    for (let kill = 0; kill < KILLS; kill++) {
      const { id, made, kept } = await killedAtRandom(data, person.id);
      const store = new Store(data);
      const host = storeServices(store);
      expect(store.notices()).toEqual([]);
      expect((await host.unfinishedAttempts())[0].id).toBe(id);
      const { commands } = await host.loadAttempt(id);
      expect(commands).toEqual(wanted.slice(0, commands.length));
      // What was answered is there; of what was made, the last append at most is missing.
      expect(commands.length).toBeGreaterThanOrEqual(kept);
      lost.push(Math.max(0, made - commands.length));
      expect(store.use((database) => database.value('PRAGMA integrity_check'))).toBe('ok');
      expect(await host.unfinishedAttempts()).toHaveLength(kill + 1);
      store.close();
    }
    const counts = [0, STEPS_PER_APPEND].map(
      (steps) => `${lost.filter((one) => one === steps).length} x ${steps} steps`,
    );
    console.log(`lost over ${KILLS} kills: ${counts.join(', ')}; most ${Math.max(...lost)} steps`);
    expect(Math.max(...lost)).toBeLessThanOrEqual(STEPS_PER_APPEND);
  });
});
