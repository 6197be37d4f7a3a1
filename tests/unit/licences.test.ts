import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { isAllowed, licenceProblems, portedNotice } from '../../bin/licences.js';

const ROOT = join(import.meta.dirname, '..', '..');
const part = (name: string, licence: string | null) => ({
  name,
  version: JSON.parse(readFileSync(join(ROOT, 'node_modules', name, 'package.json'), 'utf8')).version as string,
  licenses: licence === null ? [] : [{ license: { id: licence } }],
});

describe('the check of licences', () => {
  test('lets through what asks to be named, and choices that hold such a one', () => {
    for (const licence of ['MIT', 'ISC', '(MIT OR GPL-3.0-only)', 'Apache-2.0 AND MIT']) {
      expect(isAllowed(licence, ['MIT', 'ISC', 'Apache-2.0']), licence).toBe(true);
    }
    for (const licence of ['GPL-3.0-only', 'MIT AND GPL-3.0-only', 'UNLICENSED', 'SEE LICENSE IN x', '']) {
      expect(isAllowed(licence, ['MIT', 'ISC', 'Apache-2.0']), licence).toBe(false);
    }
  });

  test('is stricter with what ships than with a tool', () => {
    expect(licenceProblems([part('react', 'MIT'), part('vitest', 'MPL-2.0')])).toEqual([]);
    expect(licenceProblems([part('react', 'MPL-2.0')])[0]).toMatch(/^react .* \(ships\): found MPL-2.0, allowed: /);
    expect(licenceProblems([part('react', null)])[0]).toContain('found no licence');
    expect(licenceProblems([part('vitest', 'GPL-3.0-only')])[0]).toContain('(is a tool)');
    expect(licenceProblems([part('electron', 'MPL-2.0')])[0]).toContain('(ships)');
  });
});

test('every file of the elementary functions that is carried over keeps the notice that asks to be kept', () => {
  const notice = portedNotice();
  expect(notice).toMatch(
    /^Copyright \(C\) 1993 by Sun Microsystems, Inc\..*provided that this notice is preserved\.$/s,
  );
  const folder = join(ROOT, 'physics', 'core', 'elementary');
  const kernel = join(ROOT, 'physics', 'membrane', 'kernel', 'exponential.as.ts');
  const ours = ['hypot.ts', 'whole-power.ts', 'words.ts'];
  const ported = readdirSync(folder).filter((name) => !ours.includes(name));
  expect(ported.length).toBeGreaterThan(4);
  for (const file of [...ported.map((name) => join(folder, name)), kernel]) {
    const text = readFileSync(file, 'utf8').replaceAll(/^ \* /gm, '');
    expect(text.startsWith(`/*\n${notice}\n`), file).toBe(true);
  }
});

test('every package that our code imports is one that the bill of materials counts as shipped', () => {
  const { dependencies } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  const known = new Set([...Object.keys(dependencies), 'electron', ...builtinModules]);
  const imported = new Set<string>();
  for (const folder of ['physics', 'src-main', 'src-renderer']) {
    for (const name of readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })) {
      if (!/\.tsx?$/.test(name)) continue;
      const source = readFileSync(join(ROOT, folder, name), 'utf8');
      for (const [, from] of source.matchAll(
        /^(?:import|export)(?! type)[^;]*? from '([^'.][^']*)'|import\('([^'.][^']*)'\)/gm,
      )) {
        if (from !== undefined && !from.startsWith('node:')) imported.add(from);
      }
    }
  }
  const packages = [...imported].map((name) =>
    name
      .split('/')
      .slice(0, name.startsWith('@') ? 2 : 1)
      .join('/'),
  );
  expect(packages.length).toBeGreaterThan(8);
  expect(packages.filter((name) => !known.has(name))).toEqual([]);
});
