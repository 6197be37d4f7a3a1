import { defineConfig } from 'vite';

interface Bundle {
  readonly outDir: string;
  readonly entry: Record<string, string>;
  readonly format: 'es' | 'cjs' | 'iife';
  readonly extension: string;
}

/** What runs outside the page. Electron's sandboxed preload must be one CommonJS file; everything else is a module. */
const bundles: Record<string, Bundle> = {
  cli: {
    outDir: 'dist/cli',
    entry: {
      rimward: 'src-main/cli/main.ts',
      start: 'src-main/start/main.ts',
      'sweep-worker': 'src-main/cli/sweep-worker.ts',
    },
    format: 'es',
    extension: 'js',
  },
  electron: { outDir: 'dist/electron', entry: { main: 'src-main/electron/main.ts' }, format: 'es', extension: 'js' },
  preload: {
    outDir: 'dist/preload',
    entry: { preload: 'src-main/preload/preload.ts' },
    format: 'cjs',
    extension: 'cjs',
  },
  // For browsers: a plain script that runs before the page's modules.
  'page-host': {
    outDir: 'dist/page-host',
    entry: { 'page-host': 'src-main/preload/page-host.ts' },
    format: 'iife',
    extension: 'js',
  },
};

export default defineConfig(({ mode }) => {
  const bundle = bundles[mode];
  if (bundle === undefined) throw new Error(`mode must be one of ${Object.keys(bundles).join(', ')}, found ${mode}`);
  return {
    publicDir: false,
    ssr: { noExternal: true },
    build: {
      ssr: true,
      outDir: bundle.outDir,
      emptyOutDir: true,
      target: 'node20',
      minify: false,
      sourcemap: true,
      rolldownOptions: {
        input: bundle.entry,
        external: [/^node:/, 'electron'],
        output: {
          format: bundle.format,
          entryFileNames: `[name].${bundle.extension}`,
          chunkFileNames: `[name]-[hash].${bundle.extension}`,
        },
      },
    },
  };
});
