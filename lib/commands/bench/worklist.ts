import { type Browser, chromium, type Page } from '@playwright/test'
import { stopwatch } from '../../clock.ts'
import type { Figure } from '../evaluate/figures.ts'
import type { Progress } from '../evaluate/progress.ts'
import { findBrowser } from '../setup/browser.mjs'
import { flags, spread } from './browser.ts'
import { fillWorklist } from './many-rows.ts'
import { type OwnServer, ownServer } from './own-server.ts'
import { onStore } from './own-store.ts'

const ROWS = 10_000
const AIM_MS = 200
const SCRIPT_AIM_BYTES = 220_000
const PATIENCE_MS = 180_000

/**
 * How long the worklist of ten thousand rows takes, in the browser, from a choice of another order or of a filter
 * until the rows are drawn; what the server's answer weighs; and the script that the page loads.
 */
export async function measureWorklist(rounds: number, progress: Progress): Promise<Figure[]> {
  const executablePath = findBrowser()
  if (!executablePath) {
    console.error('No Chromium was found: the worklist page is not measured.')
    return []
  }
  const server = await ownServer(fill)
  let browser: Browser | null = null
  try {
    browser = await chromium.launch({ executablePath, args: flags })
    const page = await (await browser.newContext({ viewport: { width: 1366, height: 768 } })).newPage()
    await signIn(page, server)
    await page.goto(`${server.origin}/?sort=act-by&only=all`, { timeout: PATIENCE_MS })
    await page.locator('tr[data-row]').first().waitFor({ timeout: PATIENCE_MS })
    await page.getByText('The others are being read.').waitFor({ state: 'hidden', timeout: PATIENCE_MS })
    const script = await scriptBytes(page)
    const answer = await answerOf(page, server.origin)
    await page.locator('summary').filter({ hasText: 'Arrange' }).click()
    const times: { sort: number; filter: number }[] = []
    for (let round = 0; round < rounds; round++) {
      times.push({
        sort: await timeOf(page, 'sort', round % 2 === 0 ? 'name' : 'heard'),
        filter: await timeOf(page, 'filter', 'Within 24 hours'),
      })
      await timeOf(page, 'filter', 'All')
      progress.at(round + 1)
    }
    progress.end()
    return [
      inBrowser(
        'worklist-10000-sort',
        times.map(({ sort }) => sort),
      ),
      inBrowser(
        'worklist-10000-filter',
        times.map(({ filter }) => filter),
      ),
      {
        ...{ name: 'worklist-script', value: script, unit: 'bytes', low: null, high: null },
        ...{ aim: `≤ ${SCRIPT_AIM_BYTES}`, holds: script <= SCRIPT_AIM_BYTES },
      },
      plain('worklist-10000-answer', answer.seconds, 's'),
      plain('worklist-10000-answer-size', answer.megabytes, 'MB'),
    ]
  } finally {
    await browser?.close()
    await server.stop()
  }
}

/** Fills the database that the server is about to open; this process lets go of it again. */
const fill = (databaseUrl: string): Promise<void> => onStore(databaseUrl, () => fillWorklist(ROWS))

async function signIn(page: Page, server: OwnServer): Promise<void> {
  const { email, password } = server.signIn('nurse')
  const headers = { origin: server.origin }
  const door = `${server.origin}/api/auth/sign-in/email`
  const answer = await page.request.post(door, { data: { email, password }, headers })
  if (!answer.ok()) throw new Error(`nobody could sign in: ${answer.status()}`)
}

/** As they came over the wire. */
const scriptBytes = (page: Page): Promise<number> =>
  page.evaluate<number>(
    `performance.getEntriesByType('resource').filter(({ name }) => name.endsWith('.js'))
      .reduce((sum, { encodedBodySize }) => sum + encodedBodySize, 0)`,
  )

async function answerOf(page: Page, origin: string): Promise<{ seconds: number; megabytes: number }> {
  const elapsedMs = stopwatch()
  const answer = await page.request.get(`${origin}/api/worklist`, { timeout: PATIENCE_MS })
  const bytes = (await answer.body()).length
  return { seconds: elapsedMs() / 1000, megabytes: bytes / 2 ** 20 }
}

/** Milliseconds from the choice until the browser has drawn the rows, with the way to the browser and back. */
async function timeOf(page: Page, what: 'sort' | 'filter', choice: string): Promise<number> {
  const elapsedMs = stopwatch()
  await page.evaluate(
    async ([kind, wanted]) => {
      if (kind === 'sort') {
        const select = document.querySelector<HTMLSelectElement>('#sort-by')
        if (!select) throw new Error('there is nothing to sort by')
        select.value = wanted ?? ''
        select.dispatchEvent(new Event('change', { bubbles: true }))
      } else {
        const buttons = [...document.querySelectorAll<HTMLButtonElement>('fieldset button')]
        const button = buttons.find(({ textContent }) => textContent?.includes(wanted ?? ''))
        if (!button) throw new Error('there is no such filter')
        button.click()
      }
      // Once a frame has been drawn: what is asked for at its beginning is answered after it.
      await new Promise<void>((resolve) =>
        requestAnimationFrame(() => {
          const { port1, port2 } = new MessageChannel()
          port1.onmessage = () => resolve()
          port2.postMessage(null)
        }),
      )
    },
    [what, choice],
  )
  return elapsedMs()
}

const inBrowser = (name: string, times: readonly number[]): Figure => {
  const { value, low, high } = spread(times)
  return { name, value, unit: 'ms', low, high, aim: `< ${AIM_MS}`, holds: value < AIM_MS }
}

const plain = (name: string, value: number, unit: string): Figure => ({
  ...{ name, value: Number(value.toPrecision(3)), unit },
  ...{ low: null, high: null, aim: null, holds: null },
})
