import { type BrowserWindow, dialog, type RenderProcessGoneDetails } from 'electron';
import { t } from '../words/words.ts';
import { PAGE_ADDRESS } from './page-address.ts';

/** A page that dies this often within a minute dies at once again: then the person decides. Both are assumed. */
const MOST_RETURNS = 3;
const WITHIN_ms = 60_000;

const load = (window: BrowserWindow): void => {
  if (!window.isDestroyed()) window.loadURL(PAGE_ADDRESS).catch((fault) => console.error('The page:', fault));
};

async function askToLoad(window: BrowserWindow): Promise<void> {
  const { response } = await dialog.showMessageBox(window, {
    type: 'warning',
    message: t('window.page.stopped'),
    detail: t('window.page.keptWithCause'),
    buttons: [t('window.page.openAgain'), t('window.page.closeAll')],
    defaultId: 0,
    cancelId: 1,
  });
  if (response === 0) load(window);
  else window.destroy();
}

/** Asks whether to go on waiting for a page that does not answer; the question goes when the page answers again. */
async function askToWait(window: BrowserWindow): Promise<void> {
  const answered = new AbortController();
  const drop = (): void => answered.abort();
  window.once('responsive', drop);
  const { response } = await dialog.showMessageBox(window, {
    type: 'question',
    message: t('window.page.silent'),
    detail: t('window.page.keptSilent'),
    buttons: [t('window.page.wait'), t('window.page.openAgain')],
    defaultId: 0,
    cancelId: 0,
    signal: answered.signal,
  });
  window.off('responsive', drop);
  // Its end brings the page back, as any other end does.
  if (response === 1 && !answered.signal.aborted && !window.isDestroyed()) window.webContents.forcefullyCrashRenderer();
}

/**
 * Loads the page again when its process has ended, for whatever reason, and asks before it does so for the fourth time
 * in a minute. The attempt in hand is in the store by then; the page offers it when it comes back. A page whose process
 * was changed by somebody else is not brought back.
 *
 * @param now_ms a clock that only goes forward
 */
export function bringPageBack(window: BrowserWindow, now_ms: () => number = () => performance.now()): void {
  let ends_ms: number[] = [];
  const ended = ({ reason }: RenderProcessGoneDetails): void => {
    if (reason === 'clean-exit') return;
    console.error(`The page's process ended (${reason}).`);
    if (reason === 'integrity-failure') {
      window.destroy();
      return;
    }
    const at_ms = now_ms();
    ends_ms = [...ends_ms.filter((end) => at_ms - end < WITHIN_ms), at_ms];
    if (ends_ms.length <= MOST_RETURNS) load(window);
    else {
      ends_ms = [];
      void askToLoad(window);
    }
  };
  // After the event, not in it: the window is still busy with the end of the old process.
  window.webContents.on('render-process-gone', (_event, details) => void setImmediate(() => ended(details)));
  window.on('unresponsive', () => void askToWait(window));
}
