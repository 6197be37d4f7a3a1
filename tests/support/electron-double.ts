/**
 * A stand-in for the `electron` module over a browser that Playwright drives, so that the built main and preload bundles
 * run unchanged where Electron's binary cannot be had. It carries calls and pages between them and writes down what the
 * program asked of Electron. It proves our wiring and nothing about Electron: isolation, sandbox, permissions and
 * navigation are only recorded here.
 */
import { EventEmitter } from 'node:events';
import { readFileSync } from 'node:fs';
import type { BrowserContext, Page, Route } from '@playwright/test';

type Handler = (event: unknown, ...args: unknown[]) => unknown;
interface Bounds {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
type SaveAnswer = { canceled: boolean; filePath: string };
type Protocol = (request: Request) => Promise<Response>;
// biome-ignore lint/suspicious/noExplicitAny: what the program hands over is looked at by the tests, in any shape.
type Anything = any;

/** Browsers know no `app:`; pages live at this address instead and are told apart only here. */
export const STAND_IN = 'https://rimward.invalid/';
const BINDING = 'rimwardDoubleInvoke';

/** The one screen there is at first, under a bar of the system at its lower edge. */
const SCREEN = {
  id: 1,
  scaleFactor: 1,
  bounds: { x: 0, y: 0, width: 1920, height: 1080 },
  workArea: { x: 0, y: 0, width: 1920, height: 1040 },
};

export const asked = {
  context: null as BrowserContext | null,
  ready: false,
  /** False: another program holds the lock of the one running program. */
  isFirst: true,
  schemes: [] as Anything[],
  protocols: new Map<string, Protocol>(),
  handlers: new Map<string, Handler>(),
  session: new Map<string, Anything>(),
  windows: [] as BrowserWindow[],
  menu: null as Anything,
  openAnswers: [] as { canceled: boolean; filePaths: string[] }[],
  /** An answer, or what makes one of the dialog's options. */
  saveAnswers: [] as (SaveAnswer | ((options: { defaultPath: string }) => SaveAnswer))[],
  messages: [] as Anything[],
  messageAnswers: [] as number[],
  calls: [] as string[],
  /** The main one first. */
  displays: [SCREEN],
};

/** As before the program's first line. */
export function startAnew(): void {
  Object.assign(asked, { context: null, ready: false, isFirst: true, menu: null, displays: [SCREEN] });
  for (const list of [asked.schemes, asked.windows, asked.messages, asked.calls]) list.length = 0;
  for (const list of [asked.openAnswers, asked.saveAnswers, asked.messageAnswers]) list.length = 0;
  for (const map of [asked.protocols, asked.handlers, asked.session]) map.clear();
  app.removeAllListeners();
  app.isPackaged = false;
}

const record =
  (name: string) =>
  (value?: Anything): void => {
    asked.session.set(name, value);
  };

class App extends EventEmitter {
  isPackaged = false;
  requestSingleInstanceLock(): boolean {
    asked.calls.push('requestSingleInstanceLock');
    return asked.isFirst;
  }
  setPath(name: string, path: string): void {
    asked.calls.push(`setPath ${name} ${path}`);
  }
  enableSandbox(): void {
    if (asked.ready) throw new Error('enableSandbox after ready');
    asked.calls.push('enableSandbox');
  }
  isReady(): boolean {
    return asked.ready;
  }
  async whenReady(): Promise<void> {
    asked.ready = true;
  }
  getPreferredSystemLanguages(): string[] {
    return ['en-US'];
  }
  quit(): void {
    asked.calls.push('quit');
  }
  exit(code: number): void {
    asked.calls.push(`exit ${code}`);
  }
}

export const app = new App();

export const protocol = {
  registerSchemesAsPrivileged: (schemes: Anything[]): void => {
    if (asked.ready) throw new Error('schemes after ready');
    asked.schemes.push(...schemes);
  },
};

export const session = {
  defaultSession: {
    protocol: { handle: (scheme: string, handler: Protocol) => asked.protocols.set(scheme, handler) },
    setPermissionRequestHandler: record('permissionRequest'),
    setPermissionCheckHandler: record('permissionCheck'),
    setDevicePermissionHandler: record('devicePermission'),
    setSpellCheckerEnabled: record('spellChecker'),
    webRequest: { onBeforeRequest: record('beforeRequest') },
    on: (name: string, listener: Anything) => asked.session.set(`on ${name}`, listener),
  },
};

export const ipcMain = { handle: (channel: string, handler: Handler) => asked.handlers.set(channel, handler) };

export const dialog = {
  showOpenDialog: async () => asked.openAnswers.shift() ?? { canceled: true, filePaths: [] },
  showMessageBox: async (_window: unknown, options: Anything) => {
    asked.messages.push(options);
    const answer = asked.messageAnswers.shift();
    // Without an answer a question stays until it is taken back, as on a screen that nobody looks at.
    if (answer === undefined && options.signal !== undefined) {
      await new Promise((resolve) => options.signal.addEventListener('abort', resolve));
    }
    return { response: answer ?? options.cancelId ?? 1 };
  },
  showSaveDialog: async (_window: unknown, options: { defaultPath: string }): Promise<SaveAnswer> => {
    const answer = asked.saveAnswers.shift() ?? { canceled: true, filePath: '' };
    return typeof answer === 'function' ? answer(options) : answer;
  },
};

export const screen = {
  getPrimaryDisplay: () => asked.displays[0],
  getAllDisplays: () => [...asked.displays].reverse(),
};

export const Menu = {
  buildFromTemplate: (template: Anything) => template,
  setApplicationMenu: (menu: Anything) => {
    asked.menu = menu;
  },
};

/** Runs the preload as Electron does, with a `require` that knows `electron` and nothing else. */
function preloadScript(path: string): string {
  return `if (window === window.top) (() => {
    const electron = {
      contextBridge: { exposeInMainWorld: (name, value) => Object.defineProperty(window, name, { value, enumerable: true }) },
      ipcRenderer: { invoke: (channel, ...args) => window.${BINDING}(channel, args) },
    };
    const require = (name) => {
      if (name !== 'electron') throw new Error('a sandboxed preload cannot load ' + name);
      return electron;
    };
    const module = { exports: {} };
    ((require, module, exports) => { ${readFileSync(path, 'utf8')}
    })(require, module, module.exports);
  })();`;
}

async function answerRoute(route: Route): Promise<void> {
  const address = route.request().url().replace(STAND_IN, 'app://rimward/');
  const allowed = await new Promise((resolve) => {
    asked.session.get('beforeRequest')({ url: address }, ({ cancel }: { cancel: boolean }) => resolve(!cancel));
  });
  const handler = asked.protocols.get('app');
  if (!allowed || handler === undefined || !address.startsWith('app:')) return route.abort();
  const response = await handler(new Request(address, { method: route.request().method() }));
  await route.fulfill({
    status: response.status,
    headers: Object.fromEntries(response.headers),
    body: Buffer.from(await response.arrayBuffer()),
  });
}

export class BrowserWindow extends EventEmitter {
  readonly webContents = Object.assign(new EventEmitter(), {
    id: asked.windows.length + 1,
    openHandler: null as Anything,
    setWindowOpenHandler(handler: Anything) {
      this.openHandler = handler;
    },
    forcefullyCrashRenderer: (): void => {
      asked.calls.push('forcefullyCrashRenderer');
      this.pageEnds('killed');
    },
    printToPDF: async (options: Anything): Promise<Uint8Array> => {
      asked.calls.push(`printToPDF ${JSON.stringify(options)}`);
      return (await this.page).pdf({ preferCSSPageSize: true, printBackground: true });
    },
  });
  /** The first page in it; after a crash the latest is another. */
  readonly page: Promise<Page>;
  readonly loaded: string[] = [];
  #own: Promise<Page> | null = null;
  #destroyed = false;
  #full = false;
  #maximized = false;
  #bounds: Bounds;
  private give: (page: Page) => void = () => {};
  readonly options: Anything;

  constructor(options: Anything) {
    super();
    this.options = options;
    const { x = 0, y = 0, width, height } = options;
    this.#bounds = { x, y, width, height };
    this.page = new Promise((resolve) => {
      this.give = resolve;
    });
    asked.windows.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }

  async loadURL(address: string): Promise<void> {
    if (asked.context === null) throw new Error('no browser was given to the double');
    this.loaded.push(address);
    this.#own ??= this.#newPage(asked.context);
    const page = await this.#own;
    await page.goto(address.replace('app://rimward/', STAND_IN));
    this.give(page);
    this.emit('ready-to-show');
  }

  /** The page that is shown now. */
  get latest(): Promise<Page> | null {
    return this.#own;
  }

  /** What Electron does when the process of the page ends. */
  pageEnds(reason: string): void {
    this.#own = null;
    this.webContents.emit('render-process-gone', {}, { reason, exitCode: 1 });
  }

  async #newPage(context: BrowserContext): Promise<Page> {
    const page = await context.newPage();
    page.once('crash', () => this.pageEnds('crashed'));
    await page.route('**/*', answerRoute);
    await page.exposeBinding(BINDING, ({ frame }, channel: string, args: unknown[]) => {
      const senderFrame = { url: frame.url().replace(STAND_IN, 'app://rimward/'), parent: frame.parentFrame() };
      return asked.handlers.get(channel)?.({ sender: this.webContents, senderFrame }, ...args);
    });
    const { preload } = this.options.webPreferences;
    if (preload !== undefined) await page.addInitScript(preloadScript(preload));
    return page;
  }

  isDestroyed(): boolean {
    return this.#destroyed;
  }
  destroy(): void {
    asked.calls.push('destroy');
    this.#destroyed = true;
    void this.#own?.then((page) => page.close());
  }
  show(): void {
    asked.calls.push('show');
  }
  focus(): void {
    asked.calls.push('focus');
  }
  /** As a person moves it; in full screen it is still told where it would be otherwise. */
  setBounds(bounds: Bounds): void {
    this.#bounds = bounds;
    this.emit('move');
    this.emit('resize');
  }
  getNormalBounds(): Bounds {
    return this.#bounds;
  }
  setFullScreen(full: boolean): void {
    this.#full = full;
    this.emit(full ? 'enter-full-screen' : 'leave-full-screen');
  }
  isFullScreen(): boolean {
    return this.#full;
  }
  maximize(): void {
    this.#maximized = true;
    this.emit('maximize');
  }
  isMaximized(): boolean {
    return this.#maximized;
  }
  isMinimized(): boolean {
    return false;
  }
  restore(): void {}
}

/** The end of the program, as far as it is told of it: its windows close, then it ends. Once. */
export function quit(): void {
  for (const window of asked.windows) {
    if (!window.isDestroyed()) window.emit('close', {});
    window.emit('closed');
  }
  asked.windows.length = 0;
  app.emit('will-quit', {});
  app.removeAllListeners();
}

/** Waits for the program's first window and for its page to stand. */
export async function firstWindow(): Promise<BrowserWindow> {
  while (asked.windows.length === 0) await new Promise((resolve) => setTimeout(resolve, 10));
  const [window] = asked.windows as [BrowserWindow];
  await window.page;
  return window;
}
