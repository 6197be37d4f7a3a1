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
import { openWindow } from './window.ts';
import { windowShell } from './window-services.ts';

const dist = join(programFolder(), 'dist');
let window: BrowserWindow | null = null;

function showWindow(): BrowserWindow {
  if (window === null) {
    window = openWindow(dist);
    window.once('closed', () => {
      window = null;
    });
  }
  return window;
}

async function start(): Promise<void> {
  const asked = dataFolderOf(process.argv);
  if ('problem' in asked) {
    console.error(asked.problem);
    return app.exit(2);
  }
  declarePageScheme();
  app.enableSandbox();
  lockNavigation(app);
  app.on('window-all-closed', () => app.quit());
  const { services, reports, handed } = windowShell(asked.folder, showWindow);
  const receive = (path: string | null): void => {
    if (path !== null) void handed.receive(path);
  };
  app.on('second-instance', (_event, args, folder) => {
    const shown = showWindow();
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
  Menu.setApplicationMenu(buildMenu(app.isPackaged));
  showWindow();
  receive(atStart[0] ?? handedPath(asked.rest.slice(1), process.cwd()));
}

// A second start hands over to the first, which comes to the front.
if (app.requestSingleInstanceLock()) {
  start().catch((fault) => {
    console.error('Rimward could not open its window:', fault);
    app.exit(3);
  });
} else {
  app.quit();
}
