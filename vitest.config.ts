import { defineConfig } from 'vitest/config'

/**
 * One project a kind of test. `unit` is pure and shares its process; everything that needs a database gets a clone of the
 * template for each file (tests/support/database.ts). What starts the whole product stands in vitest.product.config.ts.
 */
export default defineConfig({
  test: {
    projects: [
      { test: { name: 'unit', sequence: { groupOrder: 0 }, include: ['packages/**/src/**/*.test.ts', 'apps/web/**/*.test.ts'], exclude: ['**/node_modules/**', 'packages/database/**'], isolate: false } },
      { test: { name: 'published', sequence: { groupOrder: 1 }, include: ['tests/published/**/*.test.ts'], isolate: false } },
      { test: { name: 'api', sequence: { groupOrder: 2 }, include: ['apps/api/src/**/*.test.ts', 'packages/database/src/**/*.test.ts'], globalSetup: ['tests/support/global-database.ts'], testTimeout: 180_000, hookTimeout: 300_000, maxWorkers: 2 } },
    ],
  },
})
