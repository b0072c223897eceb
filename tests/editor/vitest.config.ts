import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    include: ['tests/editor/*.editor.ts'],
    globalSetup: ['tests/editor/setup.ts'],
    // One page a suite, and each test goes on where the one before has ended.
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 180_000,
  },
});
