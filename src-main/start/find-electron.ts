import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { platform } from 'node:os';
import { dirname, join } from 'node:path';

export type ElectronFound = { readonly path: string } | { readonly why: string };

/** The binary's place as the package notes it once it has been fetched; null before. */
function fetchedBinary(packageFolder: string): string | null {
  const override = process.env.ELECTRON_OVERRIDE_DIST_PATH;
  const note = join(packageFolder, 'path.txt');
  const inside = existsSync(note) ? readFileSync(note, 'utf8') : platform() === 'win32' ? 'electron.exe' : 'electron';
  const path = join(override ?? join(packageFolder, 'dist'), inside);
  return existsSync(path) ? path : null;
}

/** Runs the package's own fetch. True when it ended well within the time. */
function fetchBinary(packageFolder: string, limit_ms: number): Promise<boolean> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(packageFolder, 'install.js')], { stdio: 'ignore' });
    const timer = setTimeout(() => child.kill('SIGKILL'), limit_ms);
    child.once('error', () => resolve(false));
    child.once('exit', (code) => {
      clearTimeout(timer);
      resolve(code === 0);
    });
  });
}

/** Where the package lies and its binary, null before it has been fetched; or why there can be no window at all. */
function lookForElectron():
  | { readonly packageFolder: string; readonly binary: string | null }
  | { readonly why: string } {
  const { DISPLAY, WAYLAND_DISPLAY, RIMWARD_NO_WINDOW } = process.env;
  if (RIMWARD_NO_WINDOW) return { why: 'RIMWARD_NO_WINDOW is set' };
  if (platform() === 'linux' && !DISPLAY && !WAYLAND_DISPLAY) return { why: 'there is no display here' };
  try {
    const packageFolder = dirname(createRequire(import.meta.url).resolve('electron/package.json'));
    return { packageFolder, binary: fetchedBinary(packageFolder) };
  } catch {
    return { why: 'the electron package is not installed' };
  }
}

/** Electron's binary if it is here already. */
export function electronHere(): ElectronFound {
  const looked = lookForElectron();
  if ('why' in looked) return looked;
  return looked.binary === null ? { why: "Electron's binary has not been fetched" } : { path: looked.binary };
}

/**
 * Electron's binary, fetched if it is not here yet (about 100 MB, once). Says why there can be no window otherwise.
 * Without a display there is none on Linux, and nothing is fetched.
 */
export async function findElectron(fetchLimit_ms: number, say: (line: string) => void): Promise<ElectronFound> {
  const looked = lookForElectron();
  if ('why' in looked) return looked;
  if (looked.binary !== null) return { path: looked.binary };
  say(`Fetching Electron for the window, once (about 100 MB, ${fetchLimit_ms / 1000} s at most) ...`);
  const fetched = await fetchBinary(looked.packageFolder, fetchLimit_ms);
  const path = fetched ? fetchedBinary(looked.packageFolder) : null;
  return path === null ? { why: "Electron's binary could not be fetched" } : { path };
}
