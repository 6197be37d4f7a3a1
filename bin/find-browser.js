/** Finds a Chrome, Chromium or Edge on this machine for the browser tests, or installs one. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright';

const names = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge-stable',
  'microsoft-edge',
];

/** @returns {string[]} */
function usualPlaces() {
  if (process.platform === 'darwin') {
    return ['Chromium', 'Google Chrome', 'Microsoft Edge'].map(
      (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
    );
  }
  if (process.platform === 'win32') {
    const { ProgramFiles = 'C:\\Program Files', LOCALAPPDATA = '' } = process.env;
    const folders = [ProgramFiles, process.env['ProgramFiles(x86)'] ?? ProgramFiles, LOCALAPPDATA];
    const inside = [
      'Google\\Chrome\\Application\\chrome.exe',
      'Chromium\\Application\\chrome.exe',
      'Microsoft\\Edge\\Application\\msedge.exe',
    ];
    return folders.flatMap((folder) => inside.map((path) => join(folder, path)));
  }
  const folders = (process.env.PATH ?? '').split(delimiter);
  return names.flatMap((name) => folders.map((folder) => join(folder, name)));
}

/**
 * Path of a browser that is on this machine, null when there is none. `RIMWARD_BROWSER` comes first.
 * @returns {string | null}
 */
export function findBrowser() {
  const places = [process.env.RIMWARD_BROWSER ?? '', ...usualPlaces(), chromium.executablePath()];
  return places.find((path) => path !== '' && existsSync(path)) ?? null;
}

/**
 * @param {string} program
 * @param {string[]} args
 */
function run(program, args) {
  console.error(`> ${[program, ...args].join(' ')}`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return spawnSync(program, args, { stdio: ['ignore', 'inherit', 'inherit'], env }).status === 0;
}

/** Debian's own package as root; elsewhere the build that Playwright fetches. */
function installBrowser() {
  const asRoot = process.platform === 'linux' && process.getuid?.() === 0;
  if (asRoot && existsSync('/usr/bin/apt-get')) {
    run('apt-get', ['-qq', 'update']);
    if (run('apt-get', ['-qq', 'install', '-y', 'chromium'])) return;
  }
  const playwright = createRequire(import.meta.url)
    .resolve('playwright/package.json')
    .replace(/package\.json$/, 'cli.js');
  run(process.execPath, [playwright, 'install', 'chromium']);
}

/**
 * A browser, installed if there is none.
 * @returns {string | null} null when none was found and none could be installed
 */
export function findOrInstallBrowser() {
  const found = findBrowser();
  if (found !== null) return found;
  console.error('No Chrome, Chromium or Edge on this machine: installing Chromium for the browser tests.');
  installBrowser();
  return findBrowser();
}
