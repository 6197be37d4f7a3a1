import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { LeftOut } from './timing.ts';

/** Figures of the window in a headless browser, where pictures are made by the processor. */
export interface WindowCase {
  readonly browser: string;
  /** From the call for the page to the first picture that answers a hand, ms. */
  readonly start_ms: number;
  /** Time between pictures while the world runs, ms. */
  readonly medianFrame_ms: number;
  readonly frame95_ms: number;
  /** Pictures from a movement of the mouse to the first that shows the instrument moved. */
  readonly inputToFrame_frames: number;
  /** Heap of page and worker before and after attempts were begun anew, MB. */
  readonly pageHeap_MB: readonly [number, number];
  readonly workerHeap_MB: readonly [number, number] | null;
  readonly attemptsBegun: number;
  /** Whether the worker has made its kernel of WebAssembly, which the page's rules could forbid; without it a world costs more. */
  readonly kernelInWorker: boolean;
}

/** The script that drives the browser: it is in the source, with the browser's driver, and not in an installed program. */
function scriptFile(): string | null {
  let folder = dirname(fileURLToPath(import.meta.url));
  for (let up = 0; up < 4; up++) {
    const file = join(folder, 'tests', 'bench', 'window-figures.ts');
    if (existsSync(file)) return file;
    folder = dirname(folder);
  }
  return null;
}

const LONGEST_ms = 240_000;

/** The sixth case. The script prints one line of JSON: the figures, or why there are none. */
export async function windowCase(short: boolean): Promise<WindowCase | LeftOut> {
  const file = scriptFile();
  if (file === null) return { leftOut: 'the script that drives a browser is in the source only' };
  const child = spawn(process.execPath, [file, ...(short ? ['--short'] : [])], {
    stdio: ['ignore', 'pipe', 'pipe'],
    timeout: LONGEST_ms,
  });
  let [out, complaints] = ['', ''];
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    complaints += text;
  });
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  });
  if (code !== 0)
    return { leftOut: `the browser's script failed: ${complaints.trim().split('\n').slice(-3).join(' ')}` };
  return JSON.parse(out.trim().split('\n').at(-1) ?? '') as WindowCase | LeftOut;
}
