#!/usr/bin/env node
/**
 * Compiles the AssemblyScript kernel of the membrane into a TypeScript file that carries the bytes; run after a change to it.
 * `--check` writes nothing and ends with 1 when the file is not what the source gives.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

const folder = join(import.meta.dirname, '..', 'physics', 'membrane', 'kernel');
const SOURCES = ['linear.as.ts', 'stiffness.as.ts', 'evaluate.as.ts'];
/** Taken in by these, not exported. */
const PARTS = ['exponential.as.ts'];
const RESULT = 'kernel-bytes.ts';
const DIGITS_A_LINE = 108;

/** The text of kernel-bytes.ts for the present source. Throws with the compiler's words when it does not compile. */
async function kernelText() {
  const { default: asc } = await import('assemblyscript/asc');
  const options = [
    '--runtime',
    'stub',
    '-O3',
    '--noAssert',
    '--importMemory',
    '--enable',
    'simd',
    '--outFile',
    'k.wasm',
  ];
  let bytes = null;
  const { error, stderr } = await asc.main([...SOURCES, ...options], {
    readFile: (name) => ([...SOURCES, ...PARTS].includes(name) ? readFileSync(join(folder, name), 'utf8') : null),
    writeFile: (name, contents) => {
      if (name === 'k.wasm') bytes = contents;
    },
    listFiles: () => [],
  });
  if (error || bytes === null) throw new Error(`the kernel does not compile: ${error?.message}\n${stderr.toString()}`);
  const digits = Buffer.from(bytes).toString('hex');
  const lines = digits.match(new RegExp(`.{1,${DIGITS_A_LINE}}`, 'g')).map((line) => `  '${line}',`);
  return [
    `/** Made from ${[...SOURCES, ...PARTS].join(', ')} by \`node bin/build-kernel.js\`: the bytes of the module, two digits each. Not to be edited. */`,
    'export const KERNEL_BYTES = [',
    ...lines,
    "].join('');",
    '',
  ].join('\n');
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const text = await kernelText();
  if (!process.argv.includes('--check')) writeFileSync(join(folder, RESULT), text);
  else if (readFileSync(join(folder, RESULT), 'utf8') !== text) {
    console.error(`${RESULT} is not what the sources give: run node bin/build-kernel.js`);
    process.exitCode = 1;
  }
}
