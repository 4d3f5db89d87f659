import type { NextConfig } from 'next'

const config: NextConfig = {
  devIndicators: false,
  poweredByHeader: false,
  reactStrictMode: true,
  // One build folder a checkout; a second server of the same checkout (tests) reads the same build.
  distDir: process.env.NEXT_DIST_DIR ?? '.next',
}

export default config
