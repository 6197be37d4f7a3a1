/**
 * Lets Node load what only the bundler knows: a font written `...woff2?inline` becomes its address with the data inside.
 * Browser tests run the program around the page from its sources, and its reports carry a font.
 */
import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';

const INLINE = /\.woff2(\?inline)?$/;

registerHooks({
  load(url, context, next) {
    if (!INLINE.test(url)) return next(url, context);
    const data = readFileSync(fileURLToPath(url.replace(/\?.*$/, ''))).toString('base64');
    return {
      format: 'module',
      shortCircuit: true,
      source: `export default 'data:font/woff2;base64,${data}';`,
    };
  },
});
