import { join } from 'node:path';
import { app, BrowserWindow } from 'electron';
import { PAGE_ADDRESS } from './page-address.ts';
import { WEB_PREFERENCES } from './web-preferences.ts';

/** Opens the one window. The page in it has no Node, its own world, and the system's sandbox around it. */
export function openWindow(distFolder: string): BrowserWindow {
  const window = new BrowserWindow({
    width: 1280,
    height: 800,
    minWidth: 900,
    minHeight: 600,
    title: 'Rimward',
    // The page's dark slate, so that nothing flashes before it is drawn.
    backgroundColor: '#1b2027',
    show: false,
    webPreferences: {
      preload: join(distFolder, 'preload', 'preload.cjs'),
      ...WEB_PREFERENCES,
      devTools: !app.isPackaged,
    },
  });
  window.once('ready-to-show', () => window.show());
  void window.loadURL(PAGE_ADDRESS);
  return window;
}
