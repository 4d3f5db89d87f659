import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

export default defineConfig({
  resolve: { alias: { '@': fileURLToPath(new URL('.', import.meta.url)) } },
  test: {
    environment: 'node',
    include: ['tests/{published,unit,property,faults,browser}/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 300_000,
  },
})
