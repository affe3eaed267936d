import { defineConfig } from 'vitest/config'

// A slow or busy machine is no fault: limits of time only end what hangs.
const pure = { testTimeout: 60_000 }
const ownDatabase = { globalSetup: ['tests/support/global-database.ts'], testTimeout: 300_000, hookTimeout: 300_000 }

/**
 * One project a kind of test. `unit` is pure and shares its process; everything that needs a database gets a clone of the
 * template for each file (tests/support/database.ts). `faults` and `journeys` start the product
 * whole.
 */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          sequence: { groupOrder: 0 },
          include: ['packages/**/src/**/*.test.ts', 'apps/web/**/*.test.ts', 'tests/{guards,statements}/**/*.test.ts'],
          exclude: ['**/node_modules/**', 'packages/database/**'],
          isolate: false,
          ...pure,
        },
      },
      {
        test: {
          name: 'published',
          sequence: { groupOrder: 1 },
          include: ['tests/published/**/*.test.ts'],
          isolate: false,
          ...pure,
        },
      },
      {
        test: {
          name: 'api',
          sequence: { groupOrder: 2 },
          include: ['apps/api/src/**/*.test.ts', 'packages/database/src/**/*.test.ts'],
          // Two processes for all files: the application is loaded and made fast by the engine once in each.
          isolate: false,
          ...ownDatabase,
          maxWorkers: 2,
        },
      },
      {
        test: {
          name: 'access',
          sequence: { groupOrder: 3 },
          include: ['tests/access/**/*.test.ts'],
          ...ownDatabase,
          maxWorkers: 2,
        },
      },
      {
        test: {
          name: 'faults',
          sequence: { groupOrder: 4 },
          include: ['tests/faults/**/*.test.ts'],
          ...ownDatabase,
          maxWorkers: 2,
        },
      },
      {
        test: {
          name: 'journeys',
          sequence: { groupOrder: 5 },
          include: ['tests/journeys/**/*.test.ts'],
          globalSetup: ['tests/support/global-journey.ts'],
          testTimeout: 600_000,
          hookTimeout: 300_000,
          maxWorkers: 2,
        },
      },
    ],
  },
})
