import type { NextConfig } from 'next'

const config: NextConfig = {
  devIndicators: false,
  poweredByHeader: false,
  reactStrictMode: true,
  // No page shows pictures through it, and left on it would scale what any stranger asks for.
  images: { unoptimized: true },
  // `npm test` checks all types once; a build that checks them again, tests included, takes twice as long.
  typescript: { ignoreBuildErrors: true },
  turbopack: {
    // What of the schema library the pages use, bundled by scripts/steps/page-schemas.mjs before them.
    resolveAlias: process.env.NODE_ENV === 'production' ? { 'zod/mini': './.stamp/page-schemas.mjs' } : {},
    rules: { '**/lib0/buffer.js': { loaders: ['./scripts/buffer-of-the-host.cjs'] } },
  },
  // Panes share the chart: a pane that opens later fetches only the parts that the page does not have yet.
  experimental: { turbopackChunking: { generateComponentChunks: true, minComponentChunkSize: 4000 } },
  // A browser that has not read the head of a page yet asks for its sign by the name of old.
  rewrites: async () => [{ source: '/favicon.ico', destination: '/icon.svg' }],
  // One build folder a checkout; a second server of the same checkout (tests) reads the same build.
  distDir: process.env.NEXT_DIST_DIR ?? '.next',
}

export default config
