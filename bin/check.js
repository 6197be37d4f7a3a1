#!/usr/bin/env node
/** Types, lint with format, and layers: everything that is known in seconds without running the program. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './sources.js';

const projects = ['physics', 'src-main', 'src-renderer', 'tests'];
const layered = ['physics', 'src-main', 'src-renderer', 'scenarios', 'tests', 'bin'].filter((folder) =>
  existsSync(join(root, folder)),
);

const steps = [
  ...projects.map((folder) => ({ name: `types of ${folder}`, args: ['typescript/bin/tsc', '-p', folder] })),
  { name: 'lint and format', args: ['@biomejs/biome/bin/biome', 'ci', '--error-on-warnings', '.'] },
  {
    name: 'layers',
    args: ['dependency-cruiser/bin/dependency-cruiser.mjs', '--config', '.dependency-cruiser.cjs', ...layered],
  },
];

const failed = [];
for (const { name, args } of steps) {
  const [tool, ...rest] = args;
  const started = Date.now();
  const { status } = spawnSync(process.execPath, [join(root, 'node_modules', tool), ...rest], {
    cwd: root,
    stdio: 'inherit',
  });
  console.log(`${status === 0 ? 'pass' : 'FAIL'}  ${name}  ${((Date.now() - started) / 1000).toFixed(1)} s`);
  if (status !== 0) failed.push(name);
}
console.log(failed.length === 0 ? 'All checks pass.' : `Failed: ${failed.join(', ')}`);
process.exitCode = failed.length === 0 ? 0 : 1;
