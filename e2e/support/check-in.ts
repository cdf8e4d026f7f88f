import { expect, type Page } from '@playwright/test'
import { expectAccessible } from './axe.ts'

/** A small old phone. */
export const phone = {
  viewport: { width: 320, height: 640 },
  hasTouch: true,
  isMobile: true,
  timezoneId: 'America/Denver',
}

export const screen = (page: Page, name: string | RegExp) =>
  expect(page.getByRole('heading', { level: 1, name })).toBeVisible()
export const next = (page: Page) => page.getByRole('button', { name: 'Continue' }).click()
export const send = (page: Page) => page.getByRole('button', { name: 'Send to the clinic' })
export const within = (page: Page, question: RegExp) => page.getByRole('group', { name: question })

/** Nothing to find for axe, nothing beyond the edge of the screen. At the page's end nothing lies under the numbers. */
export async function expectKind(page: Page) {
  const over = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  )
  expect(over, 'sideways scroll').toBe(0)
  await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight))
  await expectAccessible(page)
}

export async function openLink(page: Page, link: string) {
  await page.goto(link)
  await screen(page, 'How do you feel?')
}

type Answers = { ml?: string; temperature?: string }

/** Answers every screen in the plainest way, up to the summary. */
export async function answerAll(page: Page, { ml = '390', temperature = '37.1' }: Answers = {}) {
  await page.getByLabel('None of these').check()
  await next(page)
  await answerTube(page)
  await page.getByLabel('I measured it').check()
  await page.getByLabel('How much?').fill(ml)
  // Asked once on a phone, then remembered.
  const oneTime = page.getByLabel('One time', { exact: true })
  if (await oneTime.isVisible()) await oneTime.check()
  await page.getByLabel('Yellow').check()
  await next(page)
  await agree(page, /Flush/)
  await within(page, /Did you flush/)
    .getByLabel('Yes')
    .check()
  await page.getByLabel('It went in easily').check()
  await next(page)
  await screen(page, /Dressing/)
  await page.getByLabel('Clean and dry').check()
  await page.getByLabel('As always').check()
  await within(page, /Did you change/)
    .getByLabel('No')
    .check()
  await next(page)
  await screen(page, 'Temperature and pain')
  await page.getByLabel('What is your temperature?').fill(temperature)
  await within(page, /chills/)
    .getByLabel('No', { exact: true })
    .check()
  await page.getByLabel('2', { exact: true }).check()
  await next(page)
}

/** The unit is asked about on the first readings of a drain, an unusual value each time: yes, it is meant. */
export async function agree(page: Page, then: RegExp) {
  const heading = page.getByRole('heading', { level: 1, name: then })
  const yes = page.getByRole('button', { name: /^Yes, / }).first()
  await expect(heading.or(yes).first()).toBeVisible()
  if (await yes.isVisible()) await yes.click()
  await screen(page, then)
}

/** The page and all its parts are on the phone: from here on it opens without a network. */
export async function untilKept(page: Page) {
  await expect
    .poll(() =>
      page.evaluate(async () => {
        const path = window.location.pathname
        return Boolean(navigator.serviceWorker.controller && (await caches.match(path)))
      }),
    )
    .toBe(true)
}

/** One whole report, up to the moment after 'send'. */
export async function report(page: Page, ml: string) {
  await screen(page, 'How do you feel?')
  await answerAll(page, { ml })
  await screen(page, 'Is this right?')
  await send(page).click()
}

/** What waits on this phone, as the page lists it. */
export const waitingList = (page: Page) =>
  page.getByRole('region', { name: 'Waiting on this phone' }).getByRole('listitem')

export async function answerTube(page: Page) {
  await screen(page, /The tube: left kidney/)
  await page.getByLabel('Where it always is').check()
  await within(page, /leaking/)
    .getByLabel('No', { exact: true })
    .check()
  await within(page, /coming through/)
    .getByLabel('Yes')
    .check()
  await next(page)
  await screen(page, /What came out/)
}

/** Earlier readings of about 400 mL a day, sent as any report is. */
export async function reportEarlierDays(page: Page) {
  const status = await page.evaluate(async () => {
    const view = await (await fetch('/api/check-in')).json()
    const readings = [3, 2, 1].map((days) => ({
      drain: view.drains[0].id,
      at: new Date(Date.parse(view.asOf) - days * 86_400_000).toISOString(),
      volumeMl: 390 + days * 10,
    }))
    const answer = await fetch('/api/check-in', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'Idempotency-Key': crypto.randomUUID() },
      body: JSON.stringify({ readings }),
    })
    return answer.status
  })
  expect(status).toBeLessThan(300)
}
