#!/usr/bin/env node
/**
 * Runs after an install. Without the development tools there is nothing to build with, and that is no failure.
 * Nor is a source that does not build: the tools to mend it are installed now, and `npm start` and `npm test` stop on it.
 */
import { createRequire } from 'node:module';

function hasBuildTools() {
  try {
    createRequire(import.meta.url).resolve('vite/package.json');
    return true;
  } catch {
    return false;
  }
}

if (hasBuildTools()) {
  const { buildStale } = await import('./build.js');
  for (const line of await buildStale({ log: console.error })) console.error(line);
} else {
  console.error('The build tools are not installed; the bundles were not made.');
}
