import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';

const root = join(import.meta.dirname, '..', '..');
const cruiser = join(root, 'node_modules/dependency-cruiser/bin/dependency-cruiser.mjs');
const made: string[] = [];

afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

function cruise(folder: string, parts: readonly string[]): { status: number | null; text: string } {
  const args = [cruiser, '--config', '.dependency-cruiser.cjs', '--output-type', 'err', ...parts];
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
  return { status, text: stdout + stderr };
}

/** A house of a few files under the real rules, so that a breach can be tried without touching the real one. */
function houseWith(files: Record<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), 'layers-'));
  made.push(folder);
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
  for (const name of ['.dependency-cruiser.cjs', 'package.json']) {
    writeFileSync(join(folder, name), readFileSync(join(root, name)));
  }
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

const door = { 'physics/index.ts': 'export const door = 1;\n' };

const breaches: readonly (readonly [string, string, Record<string, string>])[] = [
  [
    'physics takes a file from Node',
    'physics-is-pure',
    { 'physics/core/a.ts': "import { readFileSync } from 'node:fs';\nexport const a = readFileSync;\n" },
  ],
  [
    'physics takes only a type from Node',
    'physics-is-pure',
    { 'physics/core/a.ts': "import type { Stats } from 'node:fs';\nexport type A = Stats;\n" },
  ],
  [
    'physics draws',
    'three-only-on-the-stage',
    { 'physics/core/a.ts': "import { Vector3 } from 'three';\nexport const a = Vector3;\n" },
  ],
  [
    'the mesh knows the membrane',
    'physics-mesh-stays-below',
    {
      'physics/mesh/a.ts': "import { b } from '../membrane/b.ts';\nexport const a = b;\n",
      'physics/membrane/b.ts': 'export const b = 1;\n',
    },
  ],
  [
    'the mesh knows a type of the world',
    'physics-mesh-stays-below',
    {
      'physics/mesh/a.ts': "import type { B } from '../world/b.ts';\nexport type A = B;\n",
      'physics/world/b.ts': 'export type B = 1;\n',
    },
  ],
  [
    'the world knows the grading',
    'physics-world-stays-below',
    {
      'physics/world/a.ts': "import { b } from '../opening/b.ts';\nexport const a = b;\n",
      'physics/opening/b.ts': 'export const b = 1;\n',
    },
  ],
  [
    'the page walks past the door',
    'one-door-into-physics',
    {
      'src-renderer/app/a.ts': "import { b } from '../../physics/core/b.ts';\nexport const a = b;\n",
      'physics/core/b.ts': 'export const b = 1;\n',
    },
  ],
  [
    'the page takes a part of the program',
    'page-knows-only-the-contract',
    {
      'src-renderer/app/a.ts': "import { b } from '../../src-main/files/b.ts';\nexport const a = b;\n",
      'src-main/files/b.ts': 'export const b = 1;\n',
    },
  ],
  [
    'a component walks past the door',
    'one-door-into-physics',
    {
      'src-renderer/app/a.tsx':
        'import type { B } from \'../../physics/core/b.ts\';\nexport const A = (_: B) => <p className="a">a</p>;\n',
      'physics/core/b.ts': 'export type B = 1;\n',
    },
  ],
  ['the page uses Node', 'node-only-outside-the-page', { 'src-renderer/app/a.ts': "import 'node:fs';\n" }],
  [
    'the command line uses Electron',
    'electron-only-in-its-shell',
    { 'src-main/cli/a.ts': "import { app } from 'electron';\nexport const a = app;\n" },
  ],
  [
    'the program draws with React',
    'react-only-in-the-page',
    { 'src-main/cli/a.ts': "import { useState } from 'react';\nexport const a = useState;\n" },
  ],
  [
    'the program takes from the tests',
    'nothing-imports-tests',
    {
      'src-main/cli/a.ts': "import { b } from '../../tests/support/b.ts';\nexport const a = b;\n",
      'tests/support/b.ts': 'export const b = 1;\n',
    },
  ],
];

describe('the layers', () => {
  test('the project as it stands keeps them', () => {
    const { status, text } = cruise(root, ['physics', 'src-main', 'src-renderer', 'scenarios', 'tests', 'bin']);
    expect(text).toContain('no dependency violations found');
    expect(status).toBe(0);
  });

  test('a house that keeps them passes', () => {
    const folder = houseWith({
      ...door,
      'src-renderer/stage/a.ts':
        "import { Vector3 } from 'three';\nimport { door } from '../../physics/index.ts';\nexport const a = [Vector3, door];\n",
    });
    expect(cruise(folder, ['physics', 'src-renderer']).status).toBe(0);
  });

  test.each(breaches)('%s: refused as %s', (_title, rule, files) => {
    const folder = houseWith({ ...door, ...files });
    const { status, text } = cruise(folder, [
      ...new Set(Object.keys({ ...door, ...files }).map((path) => path.split('/')[0])),
    ]);
    expect(text).toContain(rule);
    expect(status).toBeGreaterThan(0);
  });
});
