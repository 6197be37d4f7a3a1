#!/usr/bin/env node
/**
 * The parts that Rimward is made of: a bill of materials (CycloneDX, by npm from what is installed), the text of every
 * licence that ships, and a check that each is one we allow. Writes dist/notices, which goes into the packages. Offline.
 * Ends with 1 and a line per part whose licence is not allowed or not there.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import satisfies from 'spdx-satisfies';
import { root } from './sources.js';

/** Ask for no more than to be named, or for nothing. */
const MAY_SHIP = ['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', '0BSD', 'Unlicense', 'Zlib', 'CC0-1.0'];

/** Allowed for one part only, with the reason. */
const SHIPS_BECAUSE = {
  // Asks that changed files of its own stay open. We change none; the list names where its source is.
  mediabunny: ['MPL-2.0'],
  // A typeface: may be given on with a program, not sold by itself.
  '@fontsource/noto-sans-devanagari': ['OFL-1.1'],
};

/** Tools run on our machines and are handed to nobody. */
const MAY_BE_A_TOOL = [...MAY_SHIP, 'MPL-2.0', 'BlueOak-1.0.0', 'Python-2.0', 'CC-BY-3.0', 'CC-BY-4.0', 'WTFPL'];

/** A tool by npm's book that ships all the same: the window is made of it. */
const SHIPPED_TOOL = 'electron';

/** The whole of what is installed, as CycloneDX. */
function billOfAll() {
  const npm = process.env.npm_execpath;
  const [program, first] = npm === undefined ? ['npm', []] : [process.execPath, [npm]];
  const { status, stdout, stderr } = spawnSync(
    program,
    [...first, 'sbom', '--sbom-format', 'cyclonedx', '--sbom-type', 'application', '--offline'],
    { cwd: root, encoding: 'utf8', maxBuffer: 1e9, shell: npm === undefined && process.platform === 'win32' },
  );
  if (status !== 0) throw new Error(`npm could not make the bill of materials:\n${stderr}`);
  return JSON.parse(stdout);
}

/** Every installed part by name and version, with its folder and whether npm counts it among the tools. */
const installed = new Map(
  Object.entries(JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages)
    .filter(([folder]) => folder !== '')
    .map(([folder, { version, dev, optional, devOptional }]) => [
      `${folder.slice(folder.lastIndexOf('node_modules/') + 'node_modules/'.length)}@${version}`,
      { folder, isTool: Boolean(dev || optional || devOptional) },
    ]),
);

const placeOf = (part) => installed.get(`${part.name}@${part.version}`);

/** What lies inside the packages; of the optional parts none does. */
const ships = (part) => part.name === SHIPPED_TOOL || placeOf(part)?.isTool === false;

/** @returns {string} one SPDX expression, empty when the part names none */
function licenceOf(part) {
  const named = (part.licenses ?? []).map((one) => one.expression ?? one.license?.id ?? one.license?.name ?? '');
  return named.length > 1 ? `(${named.join(') AND (')})` : (named[0] ?? '');
}

/**
 * @param {string} licence SPDX expression
 * @param {readonly string[]} allowed
 */
export function isAllowed(licence, allowed) {
  try {
    return satisfies(licence, [...allowed]);
  } catch {
    return false;
  }
}

/** Lines for parts whose licence is not allowed. */
export function licenceProblems(parts) {
  return parts.flatMap((part) => {
    const allowed = ships(part) ? [...MAY_SHIP, ...(SHIPS_BECAUSE[part.name] ?? [])] : MAY_BE_A_TOOL;
    const licence = licenceOf(part);
    if (isAllowed(licence, allowed)) return [];
    const what = ships(part) ? 'ships' : 'is a tool';
    return [`${part.name} ${part.version} (${what}): found ${licence || 'no licence'}, allowed: ${allowed.join(', ')}`];
  });
}

/** The licence's own text, as the part brings it; null when it brings none. */
function textOf(part) {
  const folder = join(root, placeOf(part)?.folder ?? '');
  const names = readdirSync(folder).filter((name) => /^(licen[cs]e|copying|notice|unlicense)([.-]|$)/i.test(name));
  const texts = names.sort().map((name) => readFileSync(join(folder, name), 'utf8').trim());
  return texts.length === 0 ? null : texts.join('\n\n');
}

/** Our own files that carry over another's algorithm line by line, and whose: the notice at their head has to go along. */
const PORTED = { name: 'fdlibm', folder: 'physics/core/elementary', file: 'circular.ts' };

/** The notice that a ported file begins with. */
export function portedNotice() {
  const source = readFileSync(join(root, PORTED.folder, PORTED.file), 'utf8');
  const [, notice] = source.match(/^\/\*\n((?: \* .+\n)+)/) ?? [];
  if (notice === undefined) throw new Error(`${PORTED.folder}/${PORTED.file} does not begin with a notice`);
  return notice.replaceAll(/^ \* /gm, '').trim();
}

/** Where a part says that its source is. */
const sourceOf = (part) => part.externalReferences?.find(({ type }) => type === 'vcs')?.url ?? part.purl;

function listOf(parts) {
  const entries = parts.map((part) => {
    const text = textOf(part) ?? `It brings no text of its own; its licence by name is ${licenceOf(part)}.`;
    return `${part.name} ${part.version}\nLicence: ${licenceOf(part)}\nSource: ${sourceOf(part)}\n\n${text}\n`;
  });
  entries.push(`Algorithms of ${PORTED.name}, carried over in ${PORTED.folder}\n\n${portedNotice()}\n`);
  const head = `Rimward is made with the ${parts.length} parts below, and with algorithms of ${PORTED.name}. The licences of the browser that Electron brings lie beside\nthe program in LICENSES.chromium.html.\n`;
  return [head, ...entries].join(`\n${'-'.repeat(100)}\n\n`);
}

/** Writes dist/notices. @returns lines for what is not allowed; empty when all is well */
export function writeNotices() {
  const bill = billOfAll();
  const { components } = bill;
  const shipped = components.filter(ships);
  const refs = new Set([bill.metadata.component['bom-ref'], ...shipped.map((part) => part['bom-ref'])]);
  const dependencies = bill.dependencies
    .filter(({ ref }) => refs.has(ref))
    .map(({ ref, dependsOn = [] }) => ({ ref, dependsOn: dependsOn.filter((one) => refs.has(one)) }));
  const folder = join(root, 'dist', 'notices');
  mkdirSync(folder, { recursive: true });
  // Electron's own libraries of its npm package only fetch it; they are no part of the window.
  writeFileSync(
    join(folder, 'sbom.cdx.json'),
    `${JSON.stringify({ ...bill, components: shipped, dependencies }, null, 1)}\n`,
  );
  writeFileSync(join(folder, 'third-party-licences.txt'), listOf(shipped));
  return { shipped: shipped.length, tools: components.length - shipped.length, problems: licenceProblems(components) };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { shipped, tools, problems } = writeNotices();
  for (const line of problems) console.error(line);
  console.log(`${shipped} parts ship, ${tools} are tools; ${problems.length} licences are not allowed.`);
  process.exitCode = problems.length === 0 ? 0 : 1;
}
