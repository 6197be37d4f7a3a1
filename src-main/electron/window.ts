import { join } from 'node:path';
import { app, BrowserWindow, screen } from 'electron';
import { PAGE_ADDRESS } from './page-address.ts';
import { WEB_PREFERENCES } from './web-preferences.ts';
import { keepPlace, LEAST, placeOn, type Screen, type WindowPlace } from './window-place.ts';

/** The screens there are, the main one first. */
function screensNow(): readonly Screen[] {
  const main = screen.getPrimaryDisplay();
  return [main, ...screen.getAllDisplays().filter(({ id }) => id !== main.id)];
}

/**
 * Opens the one window, where it was before. The page in it has no Node, its own world, and the system's sandbox around it.
 *
 * @param place where the window was kept to be, null when that is not known
 */
export function openWindow(distFolder: string, dataFolder: string, place: WindowPlace | null): BrowserWindow {
  const bounds = placeOn(place, screensNow());
  const window = new BrowserWindow({
    ...bounds,
    // A screen that has less must not be outgrown.
    minWidth: Math.min(LEAST.width, bounds.width),
    minHeight: Math.min(LEAST.height, bounds.height),
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
  keepPlace(window, dataFolder);
  window.once('ready-to-show', () => {
    // Not before: this shows it.
    if (place?.maximized === true) window.maximize();
    window.show();
    if (place?.fullScreen === true) window.setFullScreen(true);
  });
  void window.loadURL(PAGE_ADDRESS);
  return window;
}
