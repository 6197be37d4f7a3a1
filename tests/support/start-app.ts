import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Ending {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly leftovers: boolean;
}

export interface StartedApp {
  readonly address: string;
  /** Everything it wrote for the person so far. */
  readonly said: () => string;
  /**
   * Asks it to end as Ctrl+C in a terminal does. Gives how the command ended (npm ends by the signal itself, so its
   * code is null then) and whether any of its processes is left.
   */
  readonly end: () => Promise<Ending>;
}

const ROOT = join(import.meta.dirname, '..', '..');
/** Room for a build of everything on a slow machine. */
const LONGEST_START_MS = 180_000;

function addressIn(child: ChildProcess, text: () => string): Promise<string> {
  return new Promise((resolve, reject) => {
    const give = (): void => {
      const found = /http:\/\/127\.0\.0\.1:\d+\/\?key=[\w-]+/.exec(text());
      if (found === null) return;
      clearTimeout(timer);
      resolve(found[0]);
    };
    const timer = setTimeout(
      () => reject(new Error(`no address within the time; it said:\n${text()}`)),
      LONGEST_START_MS,
    );
    child.stdout?.on('data', give);
    child.once('exit', (code) => {
      clearTimeout(timer);
      reject(new Error(`ended with ${code} before it gave an address; it said:\n${text()}`));
    });
  });
}

function groupIsAlive(group: number): boolean {
  try {
    process.kill(-group, 0);
    return true;
  } catch {
    return false;
  }
}

/**
 * Starts the program as a person does, by default with `npm start`, kept from opening a window or the person's own
 * browser, and with a data folder of its own that is removed at its end.
 */
export async function startApp(command: readonly string[] = ['npm', 'start', '--silent']): Promise<StartedApp> {
  const data = mkdtempSync(join(tmpdir(), 'data-'));
  const env = { ...process.env, RIMWARD_NO_WINDOW: '1', RIMWARD_NO_BROWSER: '1', RIMWARD_DATA: data };
  // A group of its own: Ctrl+C in a terminal reaches npm, its shell and the program together, and so does `end`.
  const [program, ...args] = command;
  const child = spawn(program, args, { cwd: ROOT, env, detached: true, stdio: ['ignore', 'pipe', 'pipe'] });
  let text = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (chunk: Buffer) => {
      text += chunk.toString();
    });
  }
  const group = child.pid ?? 0;
  const ended = new Promise<Ending>((resolve) => {
    child.once('close', (code, signal) => resolve({ code, signal, leftovers: groupIsAlive(group) }));
  });
  const end = async (): Promise<Ending> => {
    if (groupIsAlive(group)) process.kill(-group, 'SIGINT');
    const ending = await ended;
    rmSync(data, { recursive: true, force: true });
    return ending;
  };
  try {
    return { address: await addressIn(child, () => text), said: () => text, end };
  } catch (fault) {
    await end();
    throw fault;
  }
}
