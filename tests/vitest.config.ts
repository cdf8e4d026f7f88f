import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

// The machine's zone must never matter: the tests run in one that nobody's patients live in, with an offset
// of 12 h 45 min and clock changes.
process.env.TZ = 'Pacific/Chatham'

const root = fileURLToPath(new URL('..', import.meta.url))

export default defineConfig({
  root,
  resolve: { alias: { '@': root.replace(/\/$/, '') } },
  test: {
    environment: 'node',
    include: ['tests/**/*.test.ts'],
    // Two cores, both used: a store test may wait behind a property test.
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 60_000,
    restoreMocks: true,
    unstubEnvs: true,
  },
})
