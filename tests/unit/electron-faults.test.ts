/** What the window's program does when something around it fails; over the stand-in for Electron, without a browser. */
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { bringPageBack } from '../../src-main/electron/page-return.ts';
import type * as Double from '../support/electron-double.ts';
import { LONGEST_START, startPageless } from '../support/pageless-window.ts';

vi.mock('electron', () => import('../support/electron-double.ts'));

let double: typeof Double;
let window: InstanceType<typeof Double.BrowserWindow>;

const turn = () => new Promise((resolve) => setTimeout(resolve, 5));

async function opened(): Promise<void> {
  double = await startPageless();
  await vi.waitFor(() => expect(double.asked.windows).toHaveLength(1), LONGEST_START);
  window = double.asked.windows[0]!;
}

beforeEach(async () => {
  vi.spyOn(console, 'error').mockImplementation(() => {});
  await opened();
});

describe('a page whose process ends', () => {
  test.each(['crashed', 'oom', 'killed', 'abnormal-exit', 'launch-failed', 'memory-eviction'])(
    'by "%s" is loaded again in the same window',
    async (reason) => {
      window.pageEnds(reason);
      expect(window.loaded).toHaveLength(1);
      await turn();
      expect(window.loaded).toEqual(['app://rimward/', 'app://rimward/']);
      expect(double.asked.messages).toEqual([]);
    },
  );

  test('as it should, when the window closes, is left alone', async () => {
    window.pageEnds('clean-exit');
    await turn();
    expect(window.loaded).toHaveLength(1);
  });

  test('because somebody changed it is closed, not loaded again', async () => {
    window.pageEnds('integrity-failure');
    await turn();
    expect(window.loaded).toHaveLength(1);
    expect(window.isDestroyed()).toBe(true);
  });

  test('is not loaded into a window that is gone', async () => {
    window.pageEnds('crashed');
    window.destroy();
    await turn();
    expect(window.loaded).toHaveLength(1);
  });

  test('for the fourth time in a minute asks first, and closes when the person wants that', async () => {
    double.asked.messageAnswers.push(0, 1);
    for (let k = 0; k < 3; k++) {
      window.pageEnds('crashed');
      await turn();
    }
    expect([window.loaded.length, double.asked.messages.length]).toEqual([4, 0]);
    window.pageEnds('crashed');
    await turn();
    expect(double.asked.messages[0]?.message).toContain('several times');
    expect(double.asked.messages[0]?.detail).toContain('logbook');
    expect(window.loaded).toHaveLength(5);
    for (let k = 0; k < 4; k++) {
      window.pageEnds('crashed');
      await turn();
    }
    expect(window.loaded).toHaveLength(8);
    expect(window.isDestroyed()).toBe(true);
  });

  test('now and then is loaded again without a question', async () => {
    const other = new double.BrowserWindow({ webPreferences: {} });
    let now_ms = 0;
    bringPageBack(other as never, () => now_ms);
    for (let k = 0; k < 12; k++) {
      other.pageEnds('crashed');
      await turn();
      now_ms += 25_000;
    }
    expect(other.loaded).toHaveLength(12);
    expect(double.asked.messages).toEqual([]);
  });
});

describe('a page that does not answer', () => {
  test('is waited for when the person waits', async () => {
    double.asked.messageAnswers.push(0);
    window.emit('unresponsive');
    await turn();
    expect(double.asked.messages[0]?.message).toBe('The page does not answer');
    expect(window.loaded).toHaveLength(1);
  });

  test('is ended and loaded again when the person wants that', async () => {
    double.asked.messageAnswers.push(1);
    window.emit('unresponsive');
    await turn();
    await turn();
    expect(double.asked.calls).toContain('forcefullyCrashRenderer');
    expect(window.loaded).toHaveLength(2);
  });

  test('takes the question back when it answers again', async () => {
    window.emit('unresponsive');
    await turn();
    const { signal } = double.asked.messages[0] ?? {};
    expect(signal.aborted).toBe(false);
    window.emit('responsive');
    await turn();
    expect(signal.aborted).toBe(true);
    expect(window.loaded).toHaveLength(1);
    expect(double.asked.calls).not.toContain('forcefullyCrashRenderer');
  });
});

describe('a second start', () => {
  test('over the same data folder opens nothing and ends', async () => {
    double = await startPageless(({ asked }) => {
      asked.isFirst = false;
    });
    await turn();
    expect(double.asked.windows).toEqual([]);
    expect(double.asked.handlers.size).toBe(0);
    expect(double.asked.calls.at(-1)).toBe('quit');
  });

  test('brings the window of the first to the front, also from the task bar', () => {
    const restored = vi.spyOn(window, 'restore');
    vi.spyOn(window, 'isMinimized').mockReturnValue(true);
    double.app.emit('second-instance', {}, ['rimward'], '/');
    expect(restored).toHaveBeenCalledOnce();
    expect(double.asked.calls.at(-1)).toBe('focus');
    expect(double.asked.windows).toHaveLength(1);
  });

  test('is known by the data folder: the lock lies in it, and is asked for after that', () => {
    const at = double.asked.calls.indexOf(`setPath userData ${join(String(process.env.RIMWARD_DATA), 'window')}`);
    expect(at).toBeGreaterThanOrEqual(0);
    expect(double.asked.calls.indexOf('requestSingleInstanceLock')).toBeGreaterThan(at);
  });
});

test('a data folder that cannot be written to keeps no window from opening', async () => {
  double = await startPageless(() => {
    // A file in its way stands for a disk that may only be read.
    const path = join(String(process.env.RIMWARD_DATA), 'taken');
    writeFileSync(path, '');
    process.env.RIMWARD_DATA = path;
  });
  await vi.waitFor(() => expect(double.asked.windows).toHaveLength(1), LONGEST_START);
  expect(double.asked.calls.some((call) => call.startsWith('setPath'))).toBe(false);
  const answer = double.asked.handlers.get('rimward:host');
  const event = { sender: double.asked.windows[0]!.webContents, senderFrame: { url: 'app://rimward/', parent: null } };
  expect(await answer?.(event, 'hostInfo', [])).toMatchObject({
    ok: true,
    value: { notices: ['The data folder cannot be made: a file is in its way. Nothing was changed.'] },
  });
});

test('the end of the program leaves the store closed, all of it in its one file', async () => {
  const folder = process.env.RIMWARD_DATA ?? '';
  const answer = double.asked.handlers.get('rimward:host');
  const from = { sender: window.webContents, senderFrame: { url: 'app://rimward/', parent: null } };
  expect(await answer?.(from, 'listPeople', [])).toMatchObject({ ok: true });
  const log = join(folder, 'rimward.sqlite-wal');
  expect(existsSync(log)).toBe(true);
  double.quit();
  expect(existsSync(log)).toBe(false);
  expect(existsSync(join(folder, 'rimward.sqlite'))).toBe(true);
});
