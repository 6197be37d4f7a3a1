import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { vi } from 'vitest';
import type * as Double from './electron-double.ts';

/** How long a busy machine may take until the window is there. */
export const LONGEST_START = { timeout: 15_000 };

/** A browser that shows nothing: for what the program asks of Electron, not for what its page does. */
function blankContext(): typeof Double.asked.context {
  const page = {
    once: () => undefined,
    route: async () => undefined,
    exposeBinding: async () => undefined,
    addInitScript: async () => undefined,
    goto: async () => null,
    close: async () => undefined,
  };
  return { newPage: async () => page } as unknown as typeof Double.asked.context;
}

/**
 * Runs the window's program from its sources over a fresh stand-in for Electron, without a browser. The calling test
 * must have put the stand-in in the place of `electron` with `vi.mock`.
 */
export async function startPageless(prepare: (double: typeof Double) => void = () => {}): Promise<typeof Double> {
  vi.resetModules();
  process.env.RIMWARD_DATA = mkdtempSync(join(tmpdir(), 'pageless-'));
  const double = (await import('electron')) as unknown as typeof Double;
  double.startAnew();
  double.asked.context = blankContext();
  prepare(double);
  await import('../../src-main/electron/main.ts');
  return double;
}
