import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    // Browser tests end in .spec.ts and have a runner of their own.
    include: ['tests/{unit,verification,replay,regression,architecture,fuzz}/**/*.test.ts'],
    testTimeout: 60_000,
  },
});
