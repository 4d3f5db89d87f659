import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'
import { deployTests } from './scripts/steps/deploy-programs.mjs'

export default defineConfig({
  resolve: { alias: { '@': fileURLToPath(new URL('.', import.meta.url)) } },
  test: {
    environment: 'node',
    include: [
      'tests/{published,unit,property,faults,browser}/**/*.test.ts',
      ...deployTests().map((name) => `tests/deploy/${name}.test.ts`),
    ],
    testTimeout: 60_000,
    hookTimeout: 300_000,
  },
})
