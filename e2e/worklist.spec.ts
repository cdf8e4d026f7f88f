import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const rowOf = (page: Page, patientId: string) => page.locator(`tr[data-row="${patientId}"]`)

/** A fever and an empty bag, entered by a nurse on the phone; sent from the page, so with its session. */
async function phoneIn(page: Page, patientId: string) {
  const status = await page.evaluate(async (id) => {
    const { record, asOf } = await (await fetch(`/api/patients/${id}`)).json()
    const drain = record.drains[0].id
    const answer = await fetch(`/api/patients/${id}/reports`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'Idempotency-Key': crypto.randomUUID() },
      body: JSON.stringify({
        symptoms: { at: asOf, temperatureC: 38.6, drains: [{ drain, draining: false }] },
      }),
    })
    return answer.status
  }, patientId)
  expect(status).toBe(200)
}

test.describe('two nurses', () => {
  // The second take is refused: the browser notes the 409.
  test.use({ expectedErrors: [/409.*\/hold/] })
  test('a row comes by itself, is taken by one nurse only, and leaves when the call closes it', async ({
    page,
    server,
    openBrowser,
  }) => {
    const { patientId } = await enrolPerson(server, 'Wren Halloway (invented)')
    await signIn(page, server, 'nurse')
    const second = await (await openBrowser()).newPage()
    await signIn(second, server, 'nurse', 1)
    await expect(page.getByText('Not live')).toBeHidden()
    const sender = await (await openBrowser()).newPage()
    await signIn(sender, server, 'coordinator')
    await phoneIn(sender, patientId)

    const row = rowOf(page, patientId)
    await expect(row).toBeVisible({ timeout: 10_000 })
    await expect(row).toContainText('now')
    await expect(row).toContainText('At once')
    await expect(row).toContainText('Temperature 38.6 °C')

    await row.getByRole('link').focus()
    await page.keyboard.press('Space')
    await expect(row).toContainText(/you · \d+ min/)
    await expect(row.getByRole('link')).toBeFocused()
    await expect(rowOf(second, patientId)).toContainText(/Okafor.* · \d+ min/, { timeout: 10_000 })
    await expect(rowOf(second, patientId).getByRole('button', { name: /take/i })).toHaveCount(0)
    await rowOf(second, patientId).getByRole('link').focus()
    await second.keyboard.press('Space')
    await expect(second.getByText(/Wren Halloway.*Taken by R\. Okafor/)).toBeVisible()

    await row.getByRole('button', { name: /record call/i }).click()
    const dialog = page.getByRole('dialog')
    await dialog.getByRole('button', { name: 'Record the call' }).click()
    await expect(dialog).toContainText('Say how the call ended.')
    await dialog.getByLabel('Reached').check()
    await dialog.getByLabel('All of these').check()
    await dialog.getByRole('button', { name: 'Record the call' }).click()
    await expect(dialog).toContainText('Say whom you spoke to.')
    await expect(dialog).toContainText('say when to look again')
    await expectAccessible(page)
    await dialog.getByLabel('Patient').check()
    await dialog.getByLabel('To the emergency department').check()
    await dialog.getByRole('button', { name: 'Tomorrow 08:00' }).click()
    await dialog.getByLabel('Note').fill('Goes with her sister.')
    await dialog.getByRole('button', { name: 'Record the call' }).dblclick()
    await expect(dialog).toBeHidden()
    await expect(row).toBeHidden()
    // Under the eyes of the other nothing jumps: the row that has left is greyed in its place.
    await expect(rowOf(second, patientId)).toHaveAttribute('data-gone', 'true')
    const calls = await page.evaluate(
      async (id) => (await (await fetch(`/api/patients/${id}`)).json()).callbacks,
      patientId,
    )
    expect(calls).toHaveLength(1)
  })
})

test('a call that reached nobody leaves the row where it is and is counted', async ({ page, server }) => {
  const { patientId } = await enrolPerson(server, 'Sorrel Vantongeren (invented)')
  await signIn(page, server, 'nurse')
  await phoneIn(page, patientId)
  const row = rowOf(page, patientId)
  await row.getByRole('button', { name: /^take/i }).click()
  await row.getByRole('button', { name: /record call/i }).click()
  await page.getByRole('dialog').getByLabel('No answer').check()
  await page.getByRole('dialog').getByRole('button', { name: 'Record the call' }).click()
  await expect(row).toContainText('1 try, not reached')
  // The line above the list comes with the answer, and moves the rows by its height.
  await expect(page.getByText(/The call to Sorrel Vantongeren.* is recorded/)).toBeVisible()
  await row.getByRole('button', { name: /give back/i }).click()
  await expect(row.getByRole('button', { name: /^take/i })).toBeVisible()
})

test('the charge nurse takes a row over, for a reason', async ({ page, server, openBrowser }) => {
  const { patientId } = await enrolPerson(server, 'Tamsin Oakenfold (invented)')
  await signIn(page, server, 'nurse')
  await phoneIn(page, patientId)
  await rowOf(page, patientId).getByRole('button', { name: /^take/i }).click()
  await expect(rowOf(page, patientId)).toContainText('you ·')
  const charge = await (await openBrowser()).newPage()
  await signIn(charge, server, 'charge-nurse')
  await rowOf(charge, patientId)
    .getByRole('button', { name: /take over/i })
    .click()
  await charge.getByRole('dialog').getByLabel('Reason').fill('R. Okafor was called to theatre.')
  await charge.getByRole('dialog').getByRole('button', { name: 'Take over' }).click()
  await expect(rowOf(charge, patientId)).toContainText('you ·')
  await expect(rowOf(page, patientId)).toContainText('Aldana', { timeout: 10_000 })
})

test('the keyboard alone moves, finds and opens', async ({ page, server }) => {
  await signIn(page, server, 'nurse')
  const links = page.locator('[data-row-link]')
  // A key that is pressed before the page has its script is lost, as it would be for a person.
  await expect(async () => {
    await page.keyboard.press('ArrowDown')
    await expect(links.nth(0)).toBeFocused({ timeout: 2000 })
  }).toPass()
  await page.keyboard.press('ArrowDown')
  await expect(links.nth(1)).toBeFocused()
  await page.keyboard.press('ArrowUp')
  await page.keyboard.press('ArrowUp')
  await expect(links.nth(0)).toBeFocused()
  await page.keyboard.press('f')
  await expect(page.getByLabel('Find')).toBeFocused()
  await page.keyboard.type('LF-04')
  await expect(page.getByText('On no row')).toBeVisible()
  await expectAccessible(page)
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('Enter')
  await expect(page).toHaveURL(/\/patients\//)
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()

  await page.goto('/')
  await page.getByRole('button', { name: 'Turn keys off' }).click()
  await page.keyboard.press('f')
  await expect(page.getByLabel('Find')).not.toBeFocused()
})

test('holds at 320 px, in the dark and in print, and is served without inline style', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'nurse')
  expect(await (await page.request.get('/')).text()).not.toMatch(/ style="/)
  await expect(page.getByText(/Decision support, not a diagnosis/)).toBeVisible()
  await expectAccessible(page)
  await page.emulateMedia({ colorScheme: 'dark' })
  await expectAccessible(page)
  await page.setViewportSize({ width: 320, height: 640 })
  await expectAccessible(page)
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320)
  await page.emulateMedia({ media: 'print' })
  await expect(page.getByText(/Decision support, not a diagnosis/)).toBeVisible()
})

test.describe('when the server is out of reach', () => {
  test.use({
    // The browser looks for a newer worker of the page by itself, and finds no network either.
    expectedErrors: [/ERR_INTERNET_DISCONNECTED|unknown error occurred when fetching the script/],
  })
  test('the screen says how old it is, and follows again afterwards', async ({ page, server }) => {
    await signIn(page, server, 'nurse')
    await expect(page.locator('[data-row-link]').first()).toBeVisible()
    await page.context().setOffline(true)
    await page.evaluate(() => window.dispatchEvent(new Event('offline')))
    await expect(page.getByText(/Not live.*as of \d\d:\d\d/)).toBeVisible({ timeout: 30_000 })
    await page.context().setOffline(false)
    await expect(page.getByText('Not live.')).toBeHidden({ timeout: 30_000 })
  })
})
