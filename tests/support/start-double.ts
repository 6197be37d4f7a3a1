import * as nodeModule from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type * as Double from './electron-double.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const DOUBLE = pathToFileURL(join(ROOT, 'tests/support/electron-double.ts')).href;

/** Why the stand-in cannot be put in the place of `electron` here; null where it can. */
export const noDouble = 'registerHooks' in nodeModule ? null : 'needs a Node with module.registerHooks (22.15 or 23.5)';

let started = 0;

/**
 * Starts the window's program from its built bundle over a fresh stand-in for Electron, and waits until its page stands.
 * One at a time: the one before ends.
 *
 * @param context what the windows' pages are opened in
 * @param data the data folder
 * @param program the folder that holds `dist`
 */
export async function startDouble(
  context: typeof Double.asked.context,
  data: string,
  program: string = ROOT,
): Promise<typeof Double> {
  if (started === 0) {
    nodeModule.registerHooks({
      resolve: (name, from, next) => (name === 'electron' ? { url: DOUBLE, shortCircuit: true } : next(name, from)),
    });
  }
  const double = await import('./electron-double.ts');
  double.quit();
  double.startAnew();
  double.asked.context = context;
  const before = process.env.RIMWARD_DATA;
  process.env.RIMWARD_DATA = data;
  try {
    // Under an address of its own each time, or the second program would be the first, which has run.
    started += 1;
    await import(`${pathToFileURL(join(program, 'dist/electron/main.js')).href}?start=${started}`);
  } finally {
    if (before === undefined) delete process.env.RIMWARD_DATA;
    else process.env.RIMWARD_DATA = before;
  }
  await double.firstWindow();
  return double;
}
