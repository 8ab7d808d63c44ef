import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['src/build/prepare-tests.mjs'],
    // A process a file: the typesetter is a native library, and a crash of it must not take other tests along.
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 60_000,
    // The same findings must look the same wherever they are tested.
    env: { NO_COLOR: '1', TZ: 'UTC' },
  },
})
