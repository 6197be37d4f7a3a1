import { BrowserWindow } from 'electron';
import { t } from '../words/words.ts';
import { PAGE_ORIGIN } from './page-address.ts';
import { WEB_PREFERENCES } from './web-preferences.ts';

/** Nothing runs in a report, and nothing of ours is in it: no script, no preload. */
const REPORT_PREFERENCES = { ...WEB_PREFERENCES, javascript: false, devTools: false } as const;

/** A4 at 96 points an inch, with room for its shadow. */
const WIDTH = 860;
const HEIGHT = 1100;

const reportWindow = (show: boolean): BrowserWindow =>
  new BrowserWindow({
    width: WIDTH,
    height: HEIGHT,
    title: t('window.report'),
    backgroundColor: '#ffffff',
    show,
    webPreferences: REPORT_PREFERENCES,
  });

/**
 * Shows a report in a window of its own, to be read and printed (Ctrl or Cmd and P): first what is there at once, and
 * the report when it is ready (`ready` null: it is there at once). The window's rules let no page load itself again, so it is done from here.
 */
export async function showReport(address: string, ready: Promise<void> | null): Promise<void> {
  const window = reportWindow(true);
  await window.loadURL(PAGE_ORIGIN + address);
  if (ready === null) return;
  await ready;
  if (!window.isDestroyed()) await window.loadURL(PAGE_ORIGIN + address);
}

/** The report at an address as a PDF. It must be ready: what is there at once is what is printed. */
export async function reportPdf(address: string): Promise<Uint8Array> {
  const window = reportWindow(false);
  try {
    await window.loadURL(PAGE_ORIGIN + address);
    return await window.webContents.printToPDF({ printBackground: true, preferCSSPageSize: true });
  } finally {
    window.destroy();
  }
}
