import { type BrowserContext, type BrowserContextOptions, test as base, expect } from '@playwright/test'
import type { Beginning } from './beginning.ts'
import { type Server, startServer } from './server.ts'

type WorkerOptions = {
  data: Beginning
  /** Journeys of one name share a server; a file that moves the clock takes a name of its own. */
  house: string
  server: Server
}

type TestFixtures = {
  /** Console errors that a journey expects, for example where it cuts the network. */
  expectedErrors: RegExp[]
  /** A further browser, as another person would have; watched like the first. */
  openBrowser: (options?: BrowserContextOptions) => Promise<BrowserContext>
  watch: (context: BrowserContext) => void
}

/** Playwright's test with a built server behind it, in which an error on any page's console is a failure. */
export const test = base.extend<TestFixtures, WorkerOptions>({
  data: ['demo', { option: true, scope: 'worker' }],
  house: ['shared', { option: true, scope: 'worker' }],
  server: [
    async ({ data, house: _ }, use) => {
      const server = await startServer(data)
      await use(server)
      await server.stop()
    },
    { scope: 'worker', timeout: 300_000 },
  ],
  baseURL: async ({ server }, use) => use(server.origin),
  expectedErrors: [[], { option: true }],
  watch: [
    async ({ context, expectedErrors }, use) => {
      const errors: string[] = []
      const watch = (watched: BrowserContext) => {
        watched.on('console', (message) => {
          if (message.type() === 'error') errors.push(`${message.text()} (${message.location().url})`)
        })
        watched.on('weberror', (error) => errors.push(String(error.error())))
      }
      watch(context)
      await use(watch)
      const unexpected = errors.filter((text) => !expectedErrors.some((expected) => expected.test(text)))
      expect(unexpected, 'errors on the console').toEqual([])
    },
    { auto: true },
  ],
  openBrowser: async ({ browser, baseURL, watch }, use) => {
    const opened: BrowserContext[] = []
    await use(async (options) => {
      const context = await browser.newContext({ baseURL, ...options })
      watch(context)
      opened.push(context)
      return context
    })
    for (const context of opened) await context.close()
  },
})

export { expect } from '@playwright/test'
