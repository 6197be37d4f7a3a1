import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The page. Relative addresses, so that the same files serve from the app's own protocol and from the loopback address. */
export default defineConfig({
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: 'dist/renderer',
    emptyOutDir: true,
    target: 'es2023',
    // Inlined data: addresses would need wider content rules; files keep them narrow.
    assetsInlineLimit: 0,
    // The polyfill is an inline script's worth of code for browsers that this page does not run in.
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 1500,
  },
  server: { host: '127.0.0.1', strictPort: false },
});
