import { defineConfig } from 'vitest/config'

/**
 * Two projects. `quick` needs nothing but Node (the commit gate, under 30 s);
 * `real` uses pseudo-terminals, brokers, whole processes and Chromium, one file at a time.
 */
export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    passWithNoTests: false,
    projects: [
      {
        extends: true,
        test: {
          name: 'quick',
          // A test ends by its own doing; this is for a machine that does much else besides.
          testTimeout: 30_000,
          include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
          exclude: ['test/real/**', 'test/page/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'real',
          include: ['test/real/**/*.test.ts', 'test/page/**/*.test.ts'],
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})
