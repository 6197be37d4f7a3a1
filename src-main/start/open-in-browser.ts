import { spawn } from 'node:child_process';
import { platform } from 'node:os';

/** The system's own way to open an address in the browser the person uses. Windows: no shell, so nothing is expanded. */
const openers: Readonly<Record<string, readonly string[]>> = {
  darwin: ['open'],
  win32: ['rundll32.exe', 'url.dll,FileProtocolHandler'],
  linux: ['xdg-open'],
};

/** Long enough for an opener to fail; a good one may stay for as long as its browser does. */
const SETTLED_MS = 1500;

/** Opens an address in the default browser. False when there is none, or `RIMWARD_NO_BROWSER` is set. Never throws. */
export function openInBrowser(address: string): Promise<boolean> {
  const opener = openers[platform()];
  const { DISPLAY, WAYLAND_DISPLAY, RIMWARD_NO_BROWSER } = process.env;
  const noDisplay = platform() === 'linux' && !DISPLAY && !WAYLAND_DISPLAY;
  if (opener === undefined || noDisplay || RIMWARD_NO_BROWSER) return Promise.resolve(false);
  const [program, ...args] = opener;
  return new Promise((resolve) => {
    const child = spawn(program, [...args, address], { stdio: 'ignore', detached: true });
    const timer = setTimeout(() => resolve(true), SETTLED_MS);
    const settle = (opened: boolean): void => {
      clearTimeout(timer);
      resolve(opened);
    };
    child.once('error', () => settle(false));
    child.once('exit', (code) => settle(code === 0));
    child.unref();
  });
}
