/** `npm start`: the window where there can be one, else the same page in a browser. The bundles are built by now. */
import { spawn } from 'node:child_process';
import { dataFolderOf } from '../files/data-folder.ts';
import { programFolder } from '../files/program-folder.ts';
import { findElectron } from './find-electron.ts';
import { openInBrowser } from './open-in-browser.ts';
import { openLoopback } from './open-loopback.ts';
import { untilAskedToEnd } from './until-asked-to-end.ts';

/** A slow line fetches 100 MB in this; a line that is cut fails at once. */
const FETCH_LIMIT_MS = 180_000;

function runWindow(binary: string, folder: string, rest: readonly string[]): Promise<number> {
  const asRoot = process.platform === 'linux' && process.getuid?.() === 0;
  if (asRoot) console.error("Started by root: Chromium's own sandbox cannot run and is switched off (--no-sandbox).");
  const env: NodeJS.ProcessEnv = { ...process.env, RIMWARD_DATA: folder };
  // Set by some editors' terminals; with it the binary would be a plain Node and show no window.
  delete env.ELECTRON_RUN_AS_NODE;
  const args = [...(asRoot ? ['--no-sandbox'] : []), programFolder(), ...rest];
  const child = spawn(binary, args, { stdio: 'inherit', env });
  void untilAskedToEnd().then(() => child.kill('SIGTERM'));
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (code, signal) => resolve(signal === 'SIGTERM' ? 0 : (code ?? 1)));
  });
}

async function runInBrowser(why: string, folder: string): Promise<void> {
  console.error(`No window (${why}): Rimward is served to the browser of this machine instead.`);
  const loopback = await openLoopback(0, folder);
  // From here on, before the browser has been tried: the person may end it at once.
  const askedToEnd = untilAskedToEnd();
  console.log(loopback.address);
  if (!(await openInBrowser(loopback.address))) console.error('Open that address in a browser. Ctrl+C ends Rimward.');
  await askedToEnd;
  await loopback.close();
}

const asked = dataFolderOf(process.argv.slice(2));
if ('problem' in asked) {
  console.error(asked.problem);
  process.exit(2);
}
const found = await findElectron(FETCH_LIMIT_MS, (line) => console.error(line));
if ('path' in found) process.exit(await runWindow(found.path, asked.folder, asked.rest));
await runInBrowser(found.why, asked.folder);
process.exit(0);
