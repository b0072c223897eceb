import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/build.ts'],
    // Property tests and the command line take their time on a busy machine.
    testTimeout: 60_000,
    teardownTimeout: 60_000,
  },
});
