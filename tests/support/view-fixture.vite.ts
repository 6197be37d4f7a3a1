import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

const fixture = fileURLToPath(new URL('./view-fixture.ts', import.meta.url));

/** Puts the drawn stand-in where the worker opens the door into the physics. */
const drawnInsteadOfPhysics = (): Plugin => ({
  name: 'drawn-instead-of-physics',
  enforce: 'pre',
  resolveId: (id) => (id.endsWith('/open-door.ts') ? fixture : null),
});

/** The page over the stand-in, for looking at it during development: `vite --config tests/support/view-fixture.vite.ts`. */
export default defineConfig({
  base: './',
  plugins: [drawnInsteadOfPhysics(), react()],
  worker: { format: 'es', plugins: () => [drawnInsteadOfPhysics()] },
  build: { outDir: 'test-results/drawn-page', emptyOutDir: true, target: 'es2023', assetsInlineLimit: 0 },
  server: { host: '127.0.0.1', strictPort: true, port: 5199 },
});
