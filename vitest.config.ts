import { defineConfig } from 'vitest/config'

/**
 * Two projects. `quick` needs nothing but Node (the commit gate); `real` uses pseudo-terminals, brokers, whole processes
 * and Chromium, and mostly waits for them. Two files at a time, each with folders and ports of its own. A test, a hook and a
 * poll end by their own doing; the times here are for a machine that does much else besides.
 */
export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    passWithNoTests: false,
    expect: { poll: { timeout: 20_000 } },
    projects: [
      {
        extends: true,
        test: {
          name: 'quick',
          testTimeout: 30_000,
          maxWorkers: 2,
          include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
          exclude: ['test/real/**', 'test/page/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'real',
          include: ['test/real/**/*.test.ts', 'test/page/**/*.test.ts'],
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
})
