#!/usr/bin/env node
/** Builds what is stale: the page, the command line, and the two Electron bundles. `--force` builds everything. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { isFresh, root, stampOf } from './sources.js';

const shared = ['physics', 'scenarios', 'package-lock.json', 'tsconfig.json'];
// the program takes its words from the page's message files
const node = [...shared, 'src-main', 'src-renderer/i18n', 'vite.node.config.ts'];

/** One entry per bundle: what it is made of, and the file that shows that it is there. */
const parts = [
  { name: 'cli', config: 'vite.node.config.ts', mode: 'cli', sources: node, result: 'dist/cli/rimward.js' },
  { name: 'electron', config: 'vite.node.config.ts', mode: 'electron', sources: node, result: 'dist/electron/main.js' },
  {
    name: 'preload',
    config: 'vite.node.config.ts',
    mode: 'preload',
    sources: node,
    result: 'dist/preload/preload.cjs',
  },
  {
    name: 'page-host',
    config: 'vite.node.config.ts',
    mode: 'page-host',
    sources: node,
    result: 'dist/page-host/page-host.js',
  },
  {
    name: 'renderer',
    config: 'vite.config.ts',
    mode: 'production',
    sources: [...shared, 'src-renderer', 'src-main/ipc', 'index.html', 'vite.config.ts'],
    result: 'dist/renderer/index.html',
    entry: 'src-renderer/app/main.tsx',
  },
];

async function buildPart(part, log) {
  if (part.entry !== undefined && !existsSync(join(root, part.entry))) {
    throw new Error(`${part.entry} is not there`);
  }
  const { build } = await import('vite');
  const written = stampOf(part.name, part.sources);
  await build({ root, configFile: join(root, part.config), mode: part.mode, logLevel: 'warn' });
  written();
  log(`built ${part.result}`);
}

/**
 * Builds the parts that are missing or older than their sources. A part that fails does not keep the others from
 * being built. Returns one line per failure; an empty list means that everything stands.
 */
export async function buildStale({ force = false, log = () => {}, only = parts.map((part) => part.name) } = {}) {
  const failures = [];
  for (const part of parts.filter((one) => only.includes(one.name))) {
    if (!force && isFresh(part.name, part.sources, [part.result])) continue;
    try {
      await buildPart(part, log);
    } catch (fault) {
      failures.push(`${part.name} could not be built: ${fault instanceof Error ? fault.message : String(fault)}`);
    }
  }
  return failures;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const failures = await buildStale({ force: process.argv.includes('--force'), log: console.error });
  for (const line of failures) console.error(line);
  process.exitCode = failures.length > 0 ? 1 : 0;
}
