#!/usr/bin/env node
/** The command `rimward`. Loads the bundle; says plainly when there is none. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const bundle = new URL('../dist/cli/rimward.js', import.meta.url);
if (existsSync(fileURLToPath(bundle))) {
  await import(bundle.href);
} else {
  console.error('Rimward has not been built here. Run "npm run build" first.');
  process.exitCode = 3;
}
