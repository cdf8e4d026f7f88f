import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { type BrowserContext, chromium, type Page } from '@playwright/test'
import {
  expectKind,
  next,
  openLink,
  phone,
  report,
  screen,
  untilKept,
  waitingList,
  within,
} from './support/check-in.ts'
import { enrolPerson, type Person } from './support/person.ts'
import { expect, test } from './support/test.ts'

// A phone without a network: the page opens, takes reports, keeps them through whatever happens, and sends each once.

const oldPhone = { ...phone, viewport: { width: 375, height: 667 } }

test.use({
  ...oldPhone,
  house: 'check-in-offline',
  // What Chromium itself notes where a journey cuts the network or ends a link.
  expectedErrors: [/Failed to (load resource|fetch)/],
})

const volumes = async (person: Person) =>
  (await person.reports()).map(({ readings = [] }) => readings.map(({ volumeMl }) => volumeMl))

test('three reports without a network, then the network: each once, in order', async ({
  page,
  context,
  server,
}) => {
  const person = await enrolPerson(server, 'Nadia Brook-Ferris (invented)')
  await openLink(page, person.link)
  await untilKept(page)
  await context.setOffline(true)
  await page.reload()
  await expect(page.getByText(/No connection\. What you see is from/)).toBeVisible()
  await expectKind(page)

  for (const [sent, ml] of ['301', '302', '303'].entries()) {
    await report(page, ml)
    await screen(page, 'Not sent yet')
    await expect(waitingList(page)).toHaveCount(sent + 1)
    await expectKind(page)
    if (sent < 2) await page.getByRole('button', { name: 'Start another report' }).click()
  }
  await page.getByRole('button', { name: 'Start another report' }).click()
  await expect(page.getByText('3 reports wait on this phone.')).toBeVisible()
  expect(await person.reports()).toHaveLength(0)

  await context.setOffline(false)
  await expect(page.getByText(/Your report from .* has reached the clinic/)).toBeVisible()
  await expect(page.getByText(/reports? waits? on this phone/)).toBeHidden()
  expect(await volumes(person)).toEqual([[301], [302], [303]])
  await expectKind(page)
})

test('two devices: each brings its own, once', async ({ page, context, server, openBrowser }) => {
  const person = await enrolPerson(server, 'Tobias Wren-Hollis (invented)')
  const other = await openBrowser(oldPhone)
  const second = await other.newPage()
  await openLink(page, person.link)
  await openLink(second, person.link)
  for (const one of [page, second]) await untilKept(one)
  for (const one of [context, other]) await one.setOffline(true)
  await report(page, '311')
  await screen(page, 'Not sent yet')
  await report(second, '312')
  await screen(second, 'Not sent yet')
  for (const one of [context, other]) await one.setOffline(false)
  await screen(page, 'The clinic has your report')
  await screen(second, 'The clinic has your report')
  expect((await volumes(person)).sort()).toEqual([[311], [312]])
})

test('a killed tab loses nothing: neither what waits nor what was begun', async ({
  page,
  context,
  server,
}) => {
  const person = await enrolPerson(server, 'Greta Falk-Osborne (invented)')
  await openLink(page, person.link)
  await untilKept(page)
  await context.setOffline(true)
  await report(page, '321')
  await screen(page, 'Not sent yet')
  await page.getByRole('button', { name: 'Start another report' }).click()
  await page.getByLabel('Dizzy').check()
  await page.close()

  const later = await context.newPage()
  await later.goto(person.link)
  await screen(later, 'Not sent yet')
  await expect(waitingList(later)).toHaveCount(1)
  await later.getByRole('button', { name: 'Start another report' }).click()
  await screen(later, 'You have a report that is not sent')
  await later.getByRole('button', { name: 'Go on with it' }).click()
  await expect(later.getByLabel('Dizzy')).toBeChecked()
  await context.setOffline(false)
  await expect(later.getByText(/has reached the clinic/)).toBeVisible()
  await expect(later.getByLabel('Dizzy')).toBeChecked()
  expect(await volumes(person)).toEqual([[321]])
})

test('the browser is killed with three reports waiting, and restarted without a network', async ({
  server,
  watch,
  launchOptions,
}) => {
  const person = await enrolPerson(server, 'Leopold Marsh-Quill (invented)')
  const profile = mkdtempSync(path.join(tmpdir(), 'outflow-phone-'))
  const launch = async (): Promise<BrowserContext> => {
    const context = await chromium.launchPersistentContext(profile, {
      ...launchOptions,
      ...oldPhone,
      locale: 'en-GB',
      baseURL: server.origin,
    })
    watch(context)
    return context
  }
  const firstPage = async (context: BrowserContext): Promise<Page> =>
    context.pages()[0] ?? (await context.newPage())

  const before = await launch()
  const page = await firstPage(before)
  await openLink(page, person.link)
  await untilKept(page)
  await before.setOffline(true)
  for (const ml of ['331', '332', '333']) {
    await report(page, ml)
    await screen(page, 'Not sent yet')
    await page.getByRole('button', { name: 'Start another report' }).click()
  }
  const session = await before.browser()?.newBrowserCDPSession()
  const processes = await session?.send('SystemInfo.getProcessInfo')
  const pid = processes?.processInfo.find(({ type }) => type === 'browser')?.id ?? 0
  expect(pid).toBeGreaterThan(1)
  const gone = before.waitForEvent('close')
  process.kill(pid, 'SIGKILL')
  await gone

  const after = await launch()
  await after.setOffline(true)
  const again = await firstPage(after)
  await again.goto('/check-in') // the installed app: its address names nobody
  await screen(again, 'Not sent yet')
  await expect(again.getByText('Hello Leopold')).toBeVisible()
  await expect(waitingList(again)).toHaveCount(3)
  // A browser writes cookies to the disk now and then only: one that was killed may have lost its session. The link
  // finds its person without a network too.
  await again.goto(person.link)
  await expect(waitingList(again)).toHaveCount(3)
  expect(await person.reports()).toHaveLength(0)

  await after.setOffline(false)
  await screen(again, 'The clinic has your report')
  expect(await volumes(person)).toEqual([[331], [332], [333]])
  await after.close()
  rmSync(profile, { recursive: true, force: true })
})

test('a danger is told at once with what was filled in so far; the whole report corrects it', async ({
  page,
  server,
}) => {
  const person = await enrolPerson(server, 'Ottilie Crane-Abbot (invented)')
  await openLink(page, person.link)
  await page.getByLabel('None of these').check()
  await next(page)
  await screen(page, /The tube/)
  await page.getByLabel('It came out').check()
  await next(page)
  await screen(page, 'Do this now')
  await expect(page.getByText('Go to the nearest emergency department now.')).toBeVisible()
  await expect(page.getByText(/The clinic has what you filled in so far/)).toBeVisible()
  await expectKind(page)
  const [partial] = await person.reports()
  expect(partial?.symptoms).toMatchObject({ general: [], drains: [{ position: 'out' }] })

  await page.getByRole('button', { name: 'Go on with the form' }).click()
  await screen(page, /Dressing/)
  await within(page, /Did you change/)
    .getByLabel('No')
    .check()
  await next(page)
  await screen(page, 'Temperature and pain')
  await page.getByLabel('I have no thermometer').check()
  await within(page, /chills/)
    .getByLabel('No', { exact: true })
    .check()
  await page.getByLabel('3', { exact: true }).check()
  await next(page)
  await screen(page, 'Is this right?')
  await page.getByRole('button', { name: /^Send/ }).click()
  await screen(page, 'The clinic has your report')
  const [first, whole] = await person.reports()
  expect(first, 'what was told first stays on record').toEqual(partial)
  expect(whole).toMatchObject({
    supersedes: partial?.id,
    symptoms: { pain: 3, drains: [{ position: 'out' }] },
  })
})

test('without a network a danger waits as well, ahead of the report that corrects it', async ({
  page,
  context,
  server,
}) => {
  const person = await enrolPerson(server, 'Ismay Rudd-Collier (invented)')
  await openLink(page, person.link)
  await untilKept(page)
  await context.setOffline(true)
  await page.getByLabel('Chest pain').check()
  await next(page)
  await screen(page, 'Do this now')
  await expect(page.getByText('What you filled in is not sent yet.')).toBeVisible()
  await page.getByRole('button', { name: 'Stop here' }).click()
  await screen(page, 'Not sent yet')
  await expect(page.getByText('Call your local emergency number now.')).toBeVisible()
  await expect(waitingList(page)).toHaveCount(1)
  await context.setOffline(false)
  await screen(page, 'The clinic has your report')
  expect((await person.reports()).map(({ symptoms }) => symptoms?.general)).toEqual([['chest-pain']])
})

test('an entry that waits is changed before it is sent, and stays in its order', async ({
  page,
  context,
  server,
}) => {
  const person = await enrolPerson(server, 'Hester Voss-Lamb (invented)')
  await openLink(page, person.link)
  await untilKept(page)
  await context.setOffline(true)
  await report(page, '341')
  await screen(page, 'Not sent yet')
  await waitingList(page)
    .getByRole('button', { name: /Change/ })
    .click()
  await changeVolume(page, '431')
  await page.getByRole('button', { name: 'Send the change' }).click()
  await screen(page, 'Not sent yet')
  await expect(waitingList(page)).toHaveCount(1)
  await context.setOffline(false)
  await screen(page, 'The clinic has your report')
  const [first, second] = await person.reports()
  expect(first?.readings).toMatchObject([{ volumeMl: 341 }])
  expect(second).toMatchObject({
    supersedes: first?.id,
    readings: [{ volumeMl: 431, at: first?.readings?.[0]?.at }],
  })
})

test('this phone forgets: not without a warning, and then everything', async ({ page, context, server }) => {
  const person = await enrolPerson(server, 'Ferdinand Hale-Mossop (invented)')
  await openLink(page, person.link)
  await untilKept(page)
  await context.setOffline(true)
  await report(page, '351')
  await screen(page, 'Not sent yet')
  await page.getByRole('button', { name: 'This is not my phone' }).click()
  await screen(page, 'Forget everything on this phone?')
  await expect(page.getByText('One report on this phone is not sent yet. It would be lost.')).toBeVisible()
  await expectKind(page)
  await page.getByRole('button', { name: 'Keep everything' }).click()
  await context.setOffline(false)
  await screen(page, 'The clinic has your report')

  await page.getByRole('button', { name: 'This is not my phone' }).click()
  await page.getByRole('button', { name: 'Forget everything' }).click()
  await screen(page, 'This phone has forgotten you')
  const left = await page.evaluate(async () => ({
    caches: await caches.keys(),
    workers: (await navigator.serviceWorker.getRegistrations()).length,
    views: await new Promise<number>((resolve) => {
      const opening = indexedDB.open('check-in')
      opening.onsuccess = () => {
        const count = opening.result.transaction('views').objectStore('views').count()
        count.onsuccess = () => resolve(count.result)
      }
    }),
  }))
  expect(left).toEqual({ caches: [], workers: 0, views: 0 })
  await page.goto('/check-in')
  await screen(page, 'This link does not open a check-in')
})

test('the numbers to call are there with no script at all, in the phone’s language', async ({
  browser,
  server,
}) => {
  const person = await enrolPerson(server, 'Aurelio Finch-Drummond (invented)')
  const context = await browser.newContext({ javaScriptEnabled: false, locale: 'es-MX' })
  const page = await context.newPage()
  await page.goto(person.link)
  await expect(page.locator('a[href^="tel:"]').first()).toBeVisible()
  await expect(page.getByText('número de emergencias').first()).toBeVisible()
  await expect(page.locator('main')).toHaveAttribute('lang', 'es')
  await page.goto(`${server.origin}/check-in/no-such-clinic`)
  await expect(page.locator('a[href^="tel:"]')).toHaveCount(0)
  await expect(page.getByText('número de emergencias').first()).toBeVisible()
  await context.close()
})

test('yesterday’s entry is changed; the old value stays on record', async ({ page, server }) => {
  const person = await enrolPerson(server, 'Cordelia Pym-Aldous (invented)')
  await openLink(page, person.link)
  await report(page, '361')
  await screen(page, 'The clinic has your report')
  await expect(page.getByText('No nurse has opened your page since this report.')).toBeVisible()
  server.moveClock(23 * 3_600_000)
  await page.goto(person.link)
  await page.getByRole('button', { name: 'Change an earlier entry' }).click()
  await screen(page, 'What do you want to change?')
  await expectKind(page)
  await page.getByRole('button', { name: /^Sent / }).click()
  await changeVolume(page, '316')
  await page.getByRole('button', { name: 'Send the change' }).click()
  await screen(page, 'The clinic has your report')
  const [first, second] = await person.reports()
  expect(first?.readings).toMatchObject([{ volumeMl: 361 }])
  expect(second).toMatchObject({
    supersedes: first?.id,
    readings: [{ volumeMl: 316, at: first?.readings?.[0]?.at }],
  })
})

test('a link that was replaced is over; one that has expired is renewed by a code', async ({
  page,
  context,
  server,
}) => {
  const person = await enrolPerson(server, 'Rosalind Teague-Barr (invented)')
  await openLink(page, person.link)
  await untilKept(page)
  await context.setOffline(true)
  await report(page, '371')
  await screen(page, 'Not sent yet')
  await page.close()
  server.moveClock(181 * 86_400_000)
  await context.setOffline(false)

  const later = await context.newPage()
  await later.goto(person.link)
  await screen(later, 'This link does not open a check-in')
  await expect(later.getByText('One report waits on this phone.')).toBeVisible()
  await expectKind(later)
  const code = later.getByLabel('Code from your clinic')
  await code.fill('00000000')
  await later.getByRole('button', { name: 'Open with the code' }).click()
  await expect(later.getByText('This code does not fit.')).toBeVisible()
  await code.fill(await person.renewalCode())
  await later.getByRole('button', { name: 'Open with the code' }).click()
  await screen(later, 'The clinic has your report')
  expect(await volumes(person)).toEqual([[371]])

  const replaced = await person.newLink()
  await person.revokeLinks()
  await later.goto(replaced)
  await screen(later, 'This link does not open a check-in')
})

async function changeVolume(page: Page, ml: string) {
  await screen(page, 'Is this right?')
  await page.getByRole('button', { name: /Change What came out/ }).click()
  await page.getByLabel('How much?').fill(ml)
  await next(page)
  const yes = page.getByRole('button', { name: /^Yes, / }).first()
  const summary = page.getByRole('heading', { level: 1, name: 'Is this right?' })
  await expect(summary.or(yes).first()).toBeVisible()
  if (await yes.isVisible()) await yes.click()
  await screen(page, 'Is this right?')
}
