/** The window's shell: one window, one page of our own, nothing from outside. */
import { join } from 'node:path';
import { app, type BrowserWindow, Menu, session } from 'electron';
import { dataFolderOf } from '../files/data-folder.ts';
import { programFolder } from '../files/program-folder.ts';
import { answerPage } from './answer-page.ts';
import { handedPath } from './handed-files.ts';
import { lockNavigation, lockSession } from './locked-down.ts';
import { buildMenu } from './menu.ts';
import { declarePageScheme, servePage } from './page-protocol.ts';
import { bringPageBack } from './page-return.ts';
import { keepProfileWith } from './profile-folder.ts';
import { openWindow } from './window.ts';
import { keptPlace, type WindowPlace } from './window-place.ts';
import { windowShell } from './window-services.ts';

const dist = join(programFolder(), 'dist');
let window: BrowserWindow | null = null;
let place: WindowPlace | null = null;

function showWindow(dataFolder: string): BrowserWindow {
  if (window === null) {
    window = openWindow(dist, dataFolder, place);
    bringPageBack(window);
    window.once('closed', () => {
      window = null;
    });
  }
  return window;
}

async function start(dataFolder: string, rest: readonly string[]): Promise<void> {
  declarePageScheme();
  app.enableSandbox();
  lockNavigation(app);
  app.on('session-created', lockSession);
  app.on('window-all-closed', () => app.quit());
  const show = (): BrowserWindow => showWindow(dataFolder);
  const showMenu = (): void => Menu.setApplicationMenu(buildMenu(app.isPackaged));
  const { services, reports, handed, language, close } = windowShell(dataFolder, show, showMenu);
  app.on('will-quit', close);
  const receive = (path: string | null): void => {
    if (path !== null) void handed.receive(path);
  };
  app.on('second-instance', (_event, args, folder) => {
    const shown = show();
    if (shown.isMinimized()) shown.restore();
    // Before the page hears of its focus and asks.
    receive(handedPath(args ?? [], folder ?? ''));
    shown.focus();
  });
  const atStart: string[] = [];
  app.on('open-file', (event, path) => {
    event.preventDefault();
    if (app.isReady()) receive(path);
    else atStart.push(path);
  });
  await app.whenReady();
  lockSession(session.defaultSession);
  servePage(session.defaultSession, join(dist, 'renderer'), reports);
  answerPage(services, () => window);
  [place] = await Promise.all([keptPlace(dataFolder), language.speakFirst(app.getPreferredSystemLanguages())]);
  showMenu();
  show();
  receive(atStart[0] ?? handedPath(rest.slice(1), process.cwd()));
}

const asked = dataFolderOf(process.argv);
if ('problem' in asked) {
  console.error(asked.problem);
  app.exit(2);
} else {
  keepProfileWith(app, asked.folder);
  // A second start over the same data folder hands over to the first, which comes to the front.
  if (app.requestSingleInstanceLock()) {
    start(asked.folder, asked.rest).catch((fault) => {
      console.error('Rimward could not open its window:', fault);
      app.exit(3);
    });
  } else {
    app.quit();
  }
}
