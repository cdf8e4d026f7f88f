import { type BrowserContext, chromium, type Page } from '@playwright/test'
import { stopwatch } from '../../clock.ts'
import type { Figure } from '../evaluate/figures.ts'
import type { Progress } from '../evaluate/progress.ts'
import { findBrowser } from '../setup/browser.mjs'
import { flags, spread } from './browser.ts'
import { ownServer } from './own-server.ts'

/** A slow phone: a processor of a quarter of this one's speed. */
const SLOWDOWN = 4
type Network = { bytesPerS: number; roundTripMs: number }
/** What the browser's own audits take for a phone on a slow network (Lighthouse, 'slow 4G'; from memory). */
const SLOW: Network = { bytesPerS: 1_600_000 / 8, roundTripMs: 150 }
/** At the edge of a network: 400 kbit/s down and up, 400 ms there and back. */
const EDGE: Network = { bytesPerS: 400_000 / 8, roundTripMs: 400 }
const FIRST_AIM_S = 5
const NEXT_AIM_S = 1.5

/**
 * How long until the first question of the check-in page can be answered: at the first visit over a slow network, and
 * at the next without any. Each visit on a phone that never saw the page; wall time, of this machine as it is.
 */
export async function measureCheckIn(visits: number, progress: Progress): Promise<Figure[]> {
  const executablePath = findBrowser()
  if (!executablePath) {
    console.error('No Chromium was found: the check-in page is not measured.')
    return []
  }
  const server = await ownServer()
  const browser = await chromium.launch({ executablePath, args: flags })
  try {
    const times: { first: number; atEdge: number; next: number }[] = []
    for (let visit = 0; visit < visits; visit++) {
      const [near, edge] = [await browser.newContext(phone), await browser.newContext(phone)]
      times.push({
        first: await firstVisit(near, server.link, SLOW),
        next: await nextVisit(near, server.link),
        atEdge: await firstVisit(edge, server.link, EDGE),
      })
      await near.close()
      await edge.close()
      progress.at(visit + 1)
    }
    progress.end()
    return [
      figure(
        'check-in-first-visit',
        FIRST_AIM_S,
        times.map(({ first }) => first),
      ),
      figure(
        'check-in-first-visit-at-the-edge',
        FIRST_AIM_S,
        times.map(({ atEdge }) => atEdge),
      ),
      figure(
        'check-in-next-visit-offline',
        NEXT_AIM_S,
        times.map(({ next }) => next),
      ),
    ]
  } finally {
    await browser.close()
    await server.stop()
  }
}

const phone = { viewport: { width: 375, height: 667 }, isMobile: true, hasTouch: true, locale: 'en-US' }

async function firstVisit(
  context: BrowserContext,
  link: string,
  { bytesPerS, roundTripMs }: Network,
): Promise<number> {
  const page = await slowPage(context)
  const cdp = await context.newCDPSession(page)
  await cdp.send('Network.enable')
  await cdp.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: roundTripMs,
    downloadThroughput: bytesPerS,
    uploadThroughput: bytesPerS,
  })
  const seconds = await secondsUntilUsable(page, link)
  // Until the worker has the page and all its parts.
  const isKept = () =>
    page.evaluate(async (path) => {
      const kept = await caches.match(path)
      return Boolean(navigator.serviceWorker.controller && kept)
    }, new URL(link).pathname)
  for (let tries = 0; !(await isKept()); tries++) {
    if (tries > 240) throw new Error('the check-in page was not kept on the phone within two minutes')
    await page.waitForTimeout(500)
  }
  await page.close()
  return seconds
}

async function nextVisit(context: BrowserContext, link: string): Promise<number> {
  await context.setOffline(true)
  const page = await slowPage(context)
  const seconds = await secondsUntilUsable(page, link)
  await page.close()
  return seconds
}

async function slowPage(context: BrowserContext): Promise<Page> {
  const page = await context.newPage()
  const cdp = await context.newCDPSession(page)
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: SLOWDOWN })
  return page
}

/** From the tap on the link to the tap that answers. */
async function secondsUntilUsable(page: Page, link: string): Promise<number> {
  const elapsedMs = stopwatch()
  await page.goto(link, { waitUntil: 'commit', timeout: 120_000 })
  await page.locator('input[type=checkbox]').first().waitFor({ timeout: 120_000 })
  return elapsedMs() / 1000
}

function figure(name: string, aim: number, seconds: number[]): Figure {
  const { value, low, high } = spread(seconds)
  return { name, value, unit: 's', low, high, aim: `< ${aim} s`, holds: value < aim }
}
