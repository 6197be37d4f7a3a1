#!/usr/bin/env node
/** Builds what is stale, then starts the window or, where there can be none, the page for a browser. */
import { buildStale } from './build.js';

const failures = await buildStale({ log: console.error });
for (const line of failures) console.error(line);
if (failures.length > 0) process.exit(1);
await import('../dist/cli/start.js');
