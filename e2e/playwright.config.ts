import { fileURLToPath } from 'node:url'
import { defineConfig, devices } from '@playwright/test'
import { findBrowser } from '../lib/commands/setup/browser.mjs'

const here = (name: string) => fileURLToPath(new URL(name, import.meta.url))
const report = process.env.OUTFLOW_E2E_REPORT

// As root in a container Chromium needs --no-sandbox; the rest keeps it from calling home.
const flags =
  '--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking ' +
  '--disable-component-update --disable-sync'

export default defineConfig({
  testDir: here('.'),
  testMatch: '**/*.spec.ts',
  // A folder for each build: two runs at a time do not tidy each other's away.
  outputDir: here(`../.cache/e2e${process.env.NEXT_DIST_DIR?.replace('.next', '') ?? ''}`),
  globalSetup: here('./support/prepare.ts'),
  // Two cores, two journeys at a time, each with a server and a browser of its own.
  workers: 2,
  retries: 0,
  forbidOnly: true,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: report ? [['list'], ['json', { outputFile: report }]] : [['list']],
  use: {
    ...devices['Desktop Chrome'],
    viewport: { width: 1366, height: 768 },
    locale: 'en-GB',
    trace: 'retain-on-failure',
    launchOptions: { executablePath: findBrowser() ?? undefined, args: flags.split(' ') },
  },
})
