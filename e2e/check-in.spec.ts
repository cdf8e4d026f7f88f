import type { BrowserContext, Page } from '@playwright/test'
import {
  answerAll,
  answerTube,
  expectKind,
  next,
  openLink,
  phone,
  report,
  reportEarlierDays,
  screen,
  send,
  within,
} from './support/check-in.ts'
import { enrolPerson } from './support/person.ts'
import { expect, test } from './support/test.ts'

// A person at home, on a small old phone: from the link to the receipt.

test.use(phone)

test('a fall from 400 to 120 mL and a fever: advice at once, one report, a receipt', async ({
  page,
  server,
}) => {
  const person = await enrolPerson(server, 'Ines Marlowe-Vint (invented)')
  await openLink(page, person.link)
  expect(page.url(), 'the token has left the address bar').toMatch(/\/check-in\/[\w-]+$/)
  await expectKind(page)
  await reportEarlierDays(page)
  await page.reload()
  await screen(page, 'How do you feel?')

  await answerAll(page, { ml: '120', temperature: '101.5' })
  await screen(page, 'Do this now')
  await expect(page.getByText('Go to the nearest emergency department now')).toBeVisible()
  await expectKind(page)
  await expect(page.getByText(/The clinic has what you filled in so far/)).toBeVisible()
  expect(await person.reports(), 'a danger is told before the form is done').toHaveLength(2)

  await page.getByRole('button', { name: 'Go on with the form' }).click()
  await screen(page, 'Is this right?')
  await expect(page.getByText('120 mL', { exact: true })).toBeVisible()
  await expect(page.getByText('38.6 °C (101.5 °F)')).toBeVisible()
  await expectKind(page)

  await page.getByLabel('Anything else').fill('I feel hot.')
  await send(page).dblclick()
  await screen(page, 'The clinic has your report')
  await expect(page.getByText('Go to the nearest emergency department now')).toBeVisible()
  await expect(page.getByText(/^[2-9A-Z]{4}-[2-9A-Z]{4}$/)).toBeVisible()
  await expectKind(page)

  const reports = await person.reports()
  expect(reports, 'a double tap is one report').toHaveLength(3)
  expect(reports.at(-1)).toMatchObject({
    supersedes: reports.at(-2)?.id,
    readings: [{ volumeMl: 120, appearance: 'straw' }],
    flushes: [{ volumeMl: 10, ease: 'easy' }],
    dressings: [{ found: 'clean', skin: 'intact', changed: false }],
    symptoms: { temperatureC: 38.61, chills: false, pain: 2, general: [] },
  })

  await page.reload()
  await screen(page, 'The clinic has your report')
  await page.goBack()
  await screen(page, 'The clinic has your report')
  expect(await person.reports(), 'neither a reload nor back sends again').toHaveLength(3)
})

test('each screen is kind: to axe, at 320 pixels, in the dark', async ({ page, server }) => {
  const person = await enrolPerson(server, 'Jonah Peel-Arden (invented)')
  await page.emulateMedia({ colorScheme: 'dark' })
  await openLink(page, person.link)
  await expectKind(page)
  await page.getByLabel('None of these').check()
  await next(page)
  await screen(page, /The tube/)
  await page.getByLabel('It has moved').check()
  await expectKind(page)
  await answerTube(page)
  await page.getByLabel('I measured it').check()
  await within(page, /When did you empty/)
    .getByLabel('Earlier')
    .check()
  await expectKind(page)
  await next(page)
  await expectKind(page)
  for (const control of await page.locator('.answer, .number, button, .call, input[type=text]').all()) {
    const { width = 0, height = 0 } = (await control.boundingBox()) ?? {}
    expect(Math.min(width, height), (await control.textContent()) ?? '').toBeGreaterThanOrEqual(44)
  }
})

test('values that are missing, impossible or unusual are asked about, where they stand', async ({
  page,
  server,
}) => {
  const person = await enrolPerson(server, 'Teodor Asquith-Lane (invented)')
  await openLink(page, person.link)
  await reportEarlierDays(page)
  await page.reload()
  await screen(page, 'How do you feel?')
  await next(page)
  await expect(page.getByText('Please choose one answer.')).toBeVisible()
  await page.getByLabel('None of these').check()
  await next(page)

  await screen(page, /The tube/)
  await next(page)
  const list = page.getByRole('alert').filter({ hasText: 'Please look at this' })
  await expect(list).toBeFocused()
  await expect(list.getByRole('link')).toHaveCount(3)
  await list.getByRole('link').last().click()
  await expect(within(page, /coming through/).getByLabel('Yes')).toBeFocused()
  await answerTube(page)

  const volume = page.getByLabel('How much?')
  await page.getByLabel('I measured it').check()
  await volume.fill('a lot')
  await next(page)
  await expect(volume).toBeFocused()
  await expect(page.getByText('Please write a number, like 250.')).toBeVisible()

  await test.step('ounces are converted and shown back', async () => {
    await volume.fill('12')
    await page.getByLabel('US ounces').check()
    await expect(page.getByText('12 oz = 355 mL', { exact: true })).toBeVisible()
  })
  await test.step('ounces for millilitres are asked about', async () => {
    await page.getByLabel('mL (cc)').check()
    await volume.fill('14')
    await next(page)
    await expect(page.getByText(/Last time you wrote 400 mL. Now it is 14 mL/).first()).toBeVisible()
  })
  await test.step('more than the bag holds: one emptying or several', async () => {
    await volume.fill('5200')
    await next(page)
    await expect(page.getByText(/Your bag holds 600 mL/).first()).toBeVisible()
    await page.getByLabel('More than one time, added up').check()
    await next(page)
    await expect(page.getByText('5200 mL is a lot. Is that right?')).toBeVisible()
    await page.getByRole('button', { name: 'Yes, that is right' }).click()
    await screen(page, /Flush/)
  })

  await within(page, /Did you flush/)
    .getByLabel('No')
    .check()
  await next(page)
  await screen(page, /Dressing/)
  await within(page, /Did you change/)
    .getByLabel('No')
    .check()
  await next(page)
  await screen(page, 'Temperature and pain')
  const temperature = page.getByLabel('What is your temperature?')
  await within(page, /chills/)
    .getByLabel('No', { exact: true })
    .check()
  await page.getByLabel('0', { exact: true }).check()
  await temperature.fill('60')
  await next(page)
  await expect(page.getByText(/Please write what the thermometer shows/)).toBeVisible()
  await temperature.fill('34.4')
  await next(page)
  await page.getByRole('button', { name: 'Yes, that is right' }).click()
  await screen(page, 'Is this right?')
  await send(page).click()
  await screen(page, 'The clinic has your report')
  expect((await person.reports()).at(-1)).toMatchObject({
    readings: [{ volumeMl: 5200, total: true }],
    symptoms: { temperatureC: 34.4 },
  })
})

test('nothing came out, and could not measure, are answers of their own', async ({ page, server }) => {
  const person = await enrolPerson(server, 'Bettina Crowe-Salis (invented)')
  await openLink(page, person.link)
  await page.getByLabel('None of these').check()
  await next(page)
  await answerTube(page)
  await page.getByLabel('Nothing came out').check()
  await expect(page.getByText('Look along the whole tube.')).toBeVisible()
  await page.getByLabel('I could not measure').check()
  await expect(page.getByText('Look along the whole tube.')).toBeHidden()
  await next(page)
  await screen(page, /Flush/)
  await page.goBack()
  await page.getByLabel('Nothing came out').check()
  await next(page)
  await screen(page, /Flush/)
  await page.getByRole('button', { name: 'Read what to do' }).click()
  await screen(page, 'Do this now')
  await page.getByRole('button', { name: 'Tell the clinic' }).click()
  await screen(page, 'The clinic has your report')
  expect((await person.reports())[0]?.readings).toMatchObject([{ volumeMl: 0 }])
})

test('the words to call by are there before any script', async ({ browser, server }) => {
  const context: BrowserContext = await browser.newContext({ javaScriptEnabled: false })
  const page = await context.newPage()
  await page.goto(`${server.origin}/check-in`)
  await expect(page.getByText('In an emergency, call your local emergency number.')).toBeVisible()
  await expect(page.getByText("Your clinic's number is on the paper")).toBeVisible()
  await expect(page.getByText('It is not a diagnosis.')).toBeVisible()
  await context.close()
})

const scriptBytes = (page: Page) =>
  page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .filter((entry) => entry.name.endsWith('.js'))
      .reduce((sum, entry) => sum + (entry as PerformanceResourceTiming).encodedBodySize, 0),
  )

test('the page is light: at most 160 kB of script until it can be used', async ({ page, server }) => {
  const person = await enrolPerson(server, 'Ewan Tolliver-Brand (invented)')
  await openLink(page, person.link)
  await page.waitForLoadState('networkidle')
  expect(await scriptBytes(page)).toBeGreaterThan(50_000)
  expect(await scriptBytes(page)).toBeLessThanOrEqual(160_000)
})

test.describe('without the worker', () => {
  // What the worker gives out of its own keep has no size of its way through the network.
  test.use({ serviceWorkers: 'block' })
  test('a whole report takes little more script', async ({ page, server }) => {
    const person = await enrolPerson(server, 'Hollis Mardle-Quayle (invented)')
    await openLink(page, person.link)
    await report(page, '390')
    await screen(page, 'The clinic has your report')
    expect(await scriptBytes(page)).toBeLessThanOrEqual(170_000)
  })
})
