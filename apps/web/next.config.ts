import { fileURLToPath } from 'node:url'
import type { NextConfig } from 'next'

/**
 * The API's process serves these pages through Next's request handler: no rewrites, no image service, no standalone copy.
 * Types are checked by `npm run typecheck`, so a start does not pay for them again.
 */
const config: NextConfig = {
  reactStrictMode: true,
  poweredByHeader: false,
  images: { unoptimized: true },
  typescript: { ignoreBuildErrors: true },
  transpilePackages: ['@curebook/trade', '@curebook/contract'],
  turbopack: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    // Messages reach the browser parsed (lib/catalogue.ts), so it needs no parser of its own.
    resolveAlias: {
      '@formatjs/icu-messageformat-parser': { browser: '@formatjs/icu-messageformat-parser/no-parser.js' },
    },
  },
}

export default config
