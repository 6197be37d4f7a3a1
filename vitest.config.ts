import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/{unit,verification,replay,regression,architecture}/**/*.test.ts'],
    testTimeout: 60_000,
  },
});
