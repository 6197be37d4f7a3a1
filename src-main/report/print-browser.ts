/** A PDF without a window: a browser of this machine prints the page. */
import { spawn } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';

const PROGRAMS = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
];

/** Where Chrome, Chromium and Edge are usually found. */
function usualPlaces(env: NodeJS.ProcessEnv): readonly string[] {
  if (process.platform === 'darwin') {
    const names = ['Chromium', 'Google Chrome', 'Microsoft Edge'];
    return names.map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`);
  }
  if (process.platform === 'win32') {
    const programs = env.ProgramFiles ?? 'C:\\Program Files';
    const folders = [programs, env['ProgramFiles(x86)'] ?? programs, env.LOCALAPPDATA ?? ''];
    const inside = ['Google\\Chrome\\Application\\chrome.exe', 'Chromium\\Application\\chrome.exe'];
    const paths = [...inside, 'Microsoft\\Edge\\Application\\msedge.exe'];
    return folders.flatMap((folder) => paths.map((path) => join(folder, path)));
  }
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return PROGRAMS.flatMap((name) => folders.map((folder) => join(folder, name)));
}

/** Path of a browser that can print, null when there is none. `RIMWARD_BROWSER` comes first. */
export function findPrintBrowser(env: NodeJS.ProcessEnv = process.env): string | null {
  const given = env.RIMWARD_BROWSER;
  if (given !== undefined && given !== '') return existsSync(given) ? given : null;
  return usualPlaces(env).find((path) => existsSync(path) && statSync(path).isFile()) ?? null;
}

/** What is said where there is no browser. */
export const NO_PRINT_BROWSER =
  'A PDF needs Chrome, Chromium or Edge on this machine, and none was found. ' +
  'Write the report as .html and print it from any browser, or name a browser in RIMWARD_BROWSER.';

/** A fresh profile, nothing fetched in the background, no header or footer of the browser's own. */
function printArguments(profile: string, page: string, pdf: string): readonly string[] {
  const asRoot = process.platform === 'linux' && process.getuid?.() === 0;
  return [
    '--headless=new',
    ...(asRoot ? ['--no-sandbox'] : []),
    '--disable-gpu',
    '--disable-quic',
    '--disable-extensions',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
    '--no-first-run',
    '--no-default-browser-check',
    '--no-pdf-header-footer',
    `--user-data-dir=${profile}`,
    `--print-to-pdf=${pdf}`,
    pathToFileURL(page).href,
  ];
}

const LONGEST_PRINT_ms = 120_000;

function run(program: string, args: readonly string[]): Promise<void> {
  return new Promise((done, failed) => {
    const child = spawn(program, [...args], { stdio: ['ignore', 'ignore', 'pipe'], timeout: LONGEST_PRINT_ms });
    let said = '';
    child.stderr.on('data', (part: Buffer) => {
      said = `${said}${part.toString('utf8')}`.slice(-2000);
    });
    child.on('error', failed);
    child.on('close', (code) => {
      if (code === 0) done();
      else failed(new Error(`the browser ended with ${code ?? 'a signal'}: ${said.trim().split('\n').at(-1) ?? ''}`));
    });
  });
}

/**
 * Prints a whole HTML page to a PDF file, overwriting it. Takes seconds. Throws when the browser fails; nothing but an unfinished
 * file of the browser's is left then.
 */
export async function printToPdf(browser: string, html: string, pdf: string): Promise<void> {
  const folder = await mkdtemp(join(tmpdir(), 'rimward-print-'));
  try {
    const page = join(folder, 'report.html');
    await writeFile(page, html, { mode: 0o600 });
    await run(browser, printArguments(join(folder, 'profile'), page, pdf));
    if (!existsSync(pdf) || statSync(pdf).size === 0) throw new Error('the browser wrote no PDF');
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}
