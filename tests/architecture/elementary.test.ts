import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

const PHYSICS = join(import.meta.dirname, '..', '..', 'physics');
/** What the language fixes to the bit (ECMA-262): rounding, comparing, the square root, whole numbers, constants. */
const FIXED =
  /^Math\.(abs|ceil|clz32|floor|fround|imul|max|min|round|sign|sqrt|trunc|E|LN10|LN2|LOG10E|LOG2E|PI|SQRT1_2|SQRT2)$/;

/** What in a source is left to the engine: its other functions, however they are come by, and, where asked, its powers. */
function leftToEngine(source: string, powers: boolean): string[] {
  const code = source.replaceAll(/\/\*[\s\S]*?\*\/|\/\/.*/g, '');
  const functions = [...code.matchAll(/\bMath\b(?:\.\w+)?/g)]
    .map(([found]) => found)
    .filter((found) => !FIXED.test(found));
  return [...functions, ...(powers ? (code.match(/\*\*/g) ?? []) : [])];
}

const files = readdirSync(PHYSICS, { recursive: true, encoding: 'utf8' })
  .map((name) => name.replaceAll('\\', '/'))
  .filter((name) => name.endsWith('.ts'));
const sourceOf = (name: string) => readFileSync(join(PHYSICS, name), 'utf8');

describe('a function that every engine rounds in its own way', () => {
  test('is not used in physics', () => {
    expect(files.length).toBeGreaterThan(150);
    // No digest hangs on the answers that the model is held against, and powers read better there.
    const found = files.map((name) => [name, leftToEngine(sourceOf(name), !name.startsWith('verify/'))] as const);
    expect(found.filter(([, uses]) => uses.length > 0)).toEqual([]);
  });

  test.each([
    ['called', 'const a = Math.sin(1);', ['Math.sin']],
    ['taken out', 'const { hypot } = Math;', ['Math']],
    ['named by a string', "const a = Math['cos'](1);", ['Math']],
    ['handed on', 'values.map(Math.exp)', ['Math.exp']],
    ['a power', 'const a = b ** 2;', ['**']],
    ['in a comment', '/** Math.sin ** */ const a = 1; // Math.cos', []],
    ['fixed by the language', 'const a = Math.sqrt(Math.PI) * Math.imul(2, 3);', []],
  ])('is found when it is %s', (_how, source, found) => {
    expect(leftToEngine(source, true)).toEqual(found);
  });

  test('does not come in with matter-js: whoever needs that takes it with our turning', () => {
    expect(files.filter((name) => /from 'matter-js'/.test(sourceOf(name)))).toEqual(['instrument/matter.ts']);
  });
});
