import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test.use({ house: 'two nurses' })

const rowOf = (page: Page, patientId: string) => page.locator(`tr[data-row="${patientId}"]`)

/** What a nurse hears on the phone, entered from the page and so with its session. */
async function phoneIn(page: Page, patientId: string, symptom: { leak: true } | { position: 'out' }) {
  const status = await page.evaluate(
    async ([id, said]) => {
      const { record, asOf } = await (await fetch(`/api/patients/${id}`)).json()
      const drains = [{ drain: record.drains[0].id, ...said }]
      const answer = await fetch(`/api/patients/${id}/reports`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json', 'Idempotency-Key': crypto.randomUUID() },
        body: JSON.stringify({ symptoms: { at: asOf, drains } }),
      })
      return answer.status
    },
    [patientId, symptom] as const,
  )
  expect(status).toBe(200)
}

test('what is new waits while a nurse reads, unless it is at once', async ({ page, server, openBrowser }) => {
  const leak = await enrolPerson(server, 'Linnea Marchbanks (invented)')
  const out = await enrolPerson(server, 'Osric Fennimore (invented)')
  const sender = await (await openBrowser()).newPage()
  await signIn(sender, server, 'coordinator')
  await signIn(page, server, 'nurse')
  // A key that is pressed before the page has its script is lost, as it would be for a person.
  const links = page.locator('[data-row-link]')
  await expect(async () => {
    await page.keyboard.press('s')
    await expect(links.nth(0)).toBeFocused({ timeout: 2000 })
  }).toPass()
  const order = () =>
    page.locator('tr[data-row]').evaluateAll((rows) => rows.map((row) => row.getAttribute('data-row')))
  const before = await order()

  await phoneIn(sender, leak.patientId, { leak: true })
  const news = page.getByRole('button', { name: /^1 new/ })
  await expect(news).toBeVisible({ timeout: 10_000 })
  expect(await order()).toEqual(before)
  await expectAccessible(page)
  await page.keyboard.press('e')
  await expect(rowOf(page, leak.patientId)).toBeVisible()
  await expect(news).toBeHidden()

  await phoneIn(sender, out.patientId, { position: 'out' })
  await expect(rowOf(page, out.patientId)).toBeVisible({ timeout: 10_000 })
  await expect(page.getByRole('alert').filter({ hasText: 'New at once: Osric Fennimore' })).toBeVisible()
  await expect(page).toHaveTitle(/^New at once \(\d+\) Worklist/)
  await page.keyboard.press('a')
  await expect(page).toHaveTitle(/^\(\d+\) Worklist/)
  await expect(page.locator('tr:focus-within')).toContainText('At once')
})

test('of two who take the first free row each gets a row of their own', async ({
  page,
  server,
  openBrowser,
}) => {
  await signIn(page, server, 'nurse')
  const second = await (await openBrowser()).newPage()
  await signIn(second, server, 'nurse', 1)
  await Promise.all([
    page.getByRole('button', { name: 'First free row' }).click(),
    second.getByRole('button', { name: 'First free row' }).click(),
  ])
  for (const one of [page, second]) {
    await expect(one).toHaveURL(/\/patients\/[^/]+$/)
    await expect(one.getByRole('button', { name: 'Give back' })).toBeVisible()
  }
  expect(page.url()).not.toBe(second.url())
})

test('a view stands in the address, is remembered, and hides nothing silently', async ({
  page,
  server,
  openBrowser,
}) => {
  await signIn(page, server, 'nurse')
  await page.locator('summary').filter({ hasText: 'Arrange' }).click()
  await page.getByLabel('Sort by').selectOption('Name')
  await page.getByLabel('Group by').selectOption('Urgency')
  const column = page.getByRole('checkbox', { name: 'Net output' })
  await column.click()
  await expect(column).not.toBeChecked()
  await page.locator('summary').filter({ hasText: 'Arrange' }).click()
  await expect(page).toHaveURL(/sort=name&group=urgency&columns=drain,found,heard$/)
  await page.getByRole('button', { name: /^Within 24 hours/ }).click()
  await expect(page).toHaveURL(/urgency=within-24h$/)
  await expect(page.getByText(/rows are hidden by ‘Within 24 hours’\. At once among them: /)).toBeVisible()
  await expectAccessible(page)
  const shown = (one: Page) =>
    one.locator('tr[data-line]').evaluateAll((rows) => rows.map((row) => row.getAttribute('data-line')))
  const lines = await shown(page)

  const other = await (await openBrowser()).newPage()
  await signIn(other, server, 'nurse', 1)
  await other.goto(page.url())
  expect(await shown(other)).toEqual(lines)

  await page.goBack()
  await expect(page).toHaveURL(/columns=drain,found,heard$/)
  await expect(page.getByText('rows are hidden')).toBeHidden()
  await page.goto('/')
  await expect(page).toHaveURL(/sort=name&group=urgency&columns=drain,found,heard$/)
  await expect(page.getByRole('columnheader', { name: 'Net output' })).toHaveCount(0)
})

test('a mark of the strip leads to its row, and a row to its mark', async ({ page, server }) => {
  await signIn(page, server, 'nurse')
  const mark = page.locator('[data-mark]').first()
  const patientId = await mark.getAttribute('data-mark')
  await mark.hover()
  await expect(page.locator(`tr[data-row="${patientId}"]`)).toHaveAttribute('data-pointed', 'true')
  await mark.focus()
  await page.keyboard.press('Enter')
  const link = page.locator(`tr[data-row="${patientId}"] [data-row-link]`)
  await expect(link).toBeFocused()
  await page.mouse.move(0, 0)
  await expect(mark).toHaveAttribute('data-current', 'true')
})

test('the worklist is light: at most 220 kB of script', async ({ page, server }) => {
  await signIn(page, server, 'nurse')
  await page.goto('/')
  await page.waitForLoadState('networkidle')
  const bytes = await page.evaluate(() =>
    performance
      .getEntriesByType('resource')
      .filter((entry) => entry.name.endsWith('.js'))
      .reduce((sum, entry) => sum + (entry as PerformanceResourceTiming).encodedBodySize, 0),
  )
  expect(bytes).toBeGreaterThan(50_000)
  expect(bytes).toBeLessThanOrEqual(220_000)
})
