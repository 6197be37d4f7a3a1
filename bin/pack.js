#!/usr/bin/env node
/**
 * `npm run pack`: builds what is stale, writes the notices and makes the installable program of this system, or of
 * those asked for (`-- --win --mac --linux`; `-- --dir` makes the folder only). What follows goes to electron-builder.
 *
 * Electron's own binary is fetched. Where it cannot be, put its archives into a folder and name that folder in
 * `RIMWARD_ELECTRON_DIST`; each archive there must have the checksum that the electron package knows. A folder with an
 * unpacked Electron serves too. Ends with 2 when something is missing that the person can bring.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { buildStale } from './build.js';
import { writeNotices } from './licences.js';
import { root } from './sources.js';

const electron = join(root, 'node_modules', 'electron');
const readJson = (path) => JSON.parse(readFileSync(path, 'utf8'));
const args = process.argv.slice(2);

/** What electron-builder's long options call the systems, and what Electron's archives do. */
const SYSTEMS = { win: 'win32', mac: 'darwin', linux: 'linux' };
const SHORT = { w: 'win', m: 'mac', l: 'linux' };

function systemsAskedFor() {
  const asked = Object.keys(SYSTEMS).filter(
    (name) =>
      args.includes(`--${name}`) ||
      args.some((arg) => /^-[wml]+$/.test(arg) && [...arg].some((one) => SHORT[one] === name)),
  );
  return asked.length > 0 ? asked.map((name) => SYSTEMS[name]) : [process.platform];
}

/** Names of the archives of Electron that this run needs. */
function archivesNeeded() {
  const { version } = readJson(join(electron, 'package.json'));
  const given = ['x64', 'arm64', 'ia32', 'armv7l'].filter((arch) => args.includes(`--${arch}`));
  return systemsAskedFor().flatMap((system) => {
    const plain = given.length > 0 ? given : [process.arch];
    // A universal program is both bound together.
    const archs = system === 'darwin' && given.length === 0 ? ['x64', 'arm64'] : plain;
    return archs.map((arch) => `electron-v${version}-${system}-${arch}.zip`);
  });
}

/** Lines for what is wrong with the folder that Electron is to be taken from; empty when it will do. */
function faultsOf(folder) {
  if (!existsSync(folder)) return [`RIMWARD_ELECTRON_DIST: found no folder at ${folder}`];
  const names = readdirSync(folder);
  if (!names.some((name) => name.endsWith('.zip'))) {
    const isUnpacked = names.includes('resources') || names.includes('Electron.app');
    return isUnpacked ? [] : [`RIMWARD_ELECTRON_DIST: found neither archives nor an unpacked Electron in ${folder}`];
  }
  const checksums = readJson(join(electron, 'checksums.json'));
  return archivesNeeded().flatMap((name) => {
    if (!names.includes(name))
      return [`${join(folder, name)}: found nothing, allowed: Electron's archive of that name`];
    const sum = createHash('sha256')
      .update(readFileSync(join(folder, name)))
      .digest('hex');
    if (sum === checksums[name]) return [];
    return [`${join(folder, name)}: found SHA-256 ${sum}, allowed: ${checksums[name] ?? 'none, the name is unknown'}`];
  });
}

function tellWhatIsMissing() {
  const checksums = readJson(join(electron, 'checksums.json'));
  console.error('\nThe program was not packed: a file that it is made of could not be fetched.');
  console.error("Electron's archives, from the page of its releases (github.com/electron/electron/releases):");
  for (const name of archivesNeeded()) console.error(`  ${name}\n    SHA-256 ${checksums[name] ?? 'unknown'}`);
  console.error('Put them into one folder and start again with RIMWARD_ELECTRON_DIST=<that folder>.');
  if (args.includes('--dir')) return;
  console.error(
    'The installers need further tools of electron-builder, which it names above when it cannot fetch one;',
  );
  console.error('without them "npm run pack -- --dir" still makes the program as a folder.');
}

function fail(lines, status) {
  for (const line of lines) console.error(line);
  process.exit(status);
}

const given = process.env.RIMWARD_ELECTRON_DIST;
const folder = given ? resolve(given) : null;
if (folder !== null) {
  const faults = faultsOf(folder);
  if (faults.length > 0) fail(faults, 2);
}
const failures = await buildStale({ log: console.error });
if (failures.length > 0) fail(failures, 1);
const { problems } = writeNotices();
if (problems.length > 0) fail(problems, 1);

const builder = join(root, 'node_modules', 'electron-builder', 'cli.js');
const passedOn = ['--config', 'electron-builder.yml', '--publish', 'never', ...args];
if (folder !== null) passedOn.push(`--config.electronDist=${folder}`);
const { status, stdout, stderr } = spawnSync(process.execPath, [builder, ...passedOn], {
  cwd: root,
  encoding: 'utf8',
  stdio: ['ignore', 'pipe', 'pipe'],
  maxBuffer: 1e8,
});
process.stdout.write(stdout);
process.stderr.write(stderr);
if (status !== 0) {
  const isFetch = /ENOTFOUND|ECONNREFUSED|ETIMEDOUT|ECONNRESET|EAI_AGAIN|HTTPError|cannot resolve|RequestError/.test(
    stdout + stderr,
  );
  if (isFetch) tellWhatIsMissing();
  process.exit(isFetch ? 2 : 1);
}
