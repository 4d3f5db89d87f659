import type { NextConfig } from 'next'

const config: NextConfig = {
  devIndicators: false,
  poweredByHeader: false,
  reactStrictMode: true,
  // `npm test` checks all types once; a build that checks them again, tests included, takes twice as long.
  typescript: { ignoreBuildErrors: true },
  // One build folder a checkout; a second server of the same checkout (tests) reads the same build.
  distDir: process.env.NEXT_DIST_DIR ?? '.next',
}

export default config
