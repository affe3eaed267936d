import { defineConfig } from 'vitest/config'

/** Tests that take long: every route by every role, and those that start the product whole (kill, clone, browser). Run by name; not part of `npm test` yet. */
export default defineConfig({
  test: {
    projects: [
      { test: { name: 'access', sequence: { groupOrder: 3 }, include: ['tests/access/**/*.test.ts'], globalSetup: ['tests/support/global-database.ts'], testTimeout: 300_000, hookTimeout: 300_000, maxWorkers: 2 } },
      { test: { name: 'faults', sequence: { groupOrder: 4 }, include: ['tests/faults/**/*.test.ts'], globalSetup: ['tests/support/global-database.ts'], testTimeout: 300_000, hookTimeout: 300_000, maxWorkers: 1 } },
      { test: { name: 'journeys', sequence: { groupOrder: 5 }, include: ['tests/journeys/**/*.test.ts'], globalSetup: ['tests/support/global-journey.ts'], testTimeout: 600_000, hookTimeout: 300_000, maxWorkers: 1, fileParallelism: false } },
    ],
  },
})
