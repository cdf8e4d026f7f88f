import { randomUUID } from 'node:crypto'
import { expectAccessible } from './support/axe.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test('what the patient says on the phone is stored, corrected with the old in sight, and drawn', async ({
  page,
  server,
}) => {
  const { patientId } = await enrolPerson(server, 'Juniper Castellane (invented)')
  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${patientId}`)
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Juniper Castellane (invented)')

  await page.getByRole('button', { name: 'Enter a report by phone' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByRole('button', { name: 'Store the report' }).click()
  await expect(dialog).toContainText('Nothing is entered yet.')
  await dialog.getByLabel('Came out, mL').fill('6000')
  await dialog.getByLabel('Pain, 0 to 10').fill('12')
  await dialog.getByRole('button', { name: 'Store the report' }).click()
  await expect(dialog).toContainText('From 0 to 10.')
  await expect(dialog).toContainText('Over 5000 mL: mark that it is meant.')
  await expectAccessible(page)
  await dialog.getByLabel('Came out, mL').fill('310')
  await dialog.getByLabel('Pain, 0 to 10').fill('3')
  await dialog.getByLabel('none of these').check()
  await dialog.getByLabel('In their words').fill('Slept badly.')
  await dialog.getByRole('button', { name: 'Store the report' }).dblclick()
  await expect(dialog).toBeHidden()
  const reports = page.getByRole('region', { name: 'Reports' })
  await expect(reports).toContainText('310 mL')
  await expect(reports).toContainText('entered by R. Okafor')
  await expect(reports.getByRole('article')).toHaveCount(1)

  await reports.getByRole('button', { name: /^Correct/ }).click()
  await expect(dialog.getByLabel('Came out, mL')).toHaveValue('310')
  await dialog.getByLabel('Came out, mL').fill('130')
  await dialog.getByRole('button', { name: 'Store the correction' }).click()
  await expect(reports.locator('del').first()).toContainText('310 mL')
  await expect(reports).toContainText('130 mL')

  await expect(page.getByRole('img', { name: /Timeline/ }).locator('canvas')).toBeVisible()
  await page.getByRole('button', { name: 'table', exact: true }).click()
  await expect(page.getByRole('region', { name: 'Timeline as a table' })).toContainText('3 of 10')
  await expectAccessible(page)
})

test('an event, other orders and a new link are recorded; what was a mistake is taken back or withdrawn', async ({
  page,
  server,
}) => {
  const { patientId } = await enrolPerson(server, 'Bramwell Sixpence (invented)')
  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${patientId}`)
  const dialog = page.getByRole('dialog')

  await page.getByRole('button', { name: 'Record an event' }).click()
  await dialog.getByRole('button', { name: 'Record the event' }).click()
  await expect(dialog).toContainText('Say what was done.')
  await dialog.getByLabel('Position checked').check()
  await dialog.getByRole('button', { name: 'Record the event' }).click()
  await expect(page.getByText('The event is recorded.')).toContainText('Position checked, left kidney')

  const events = page.getByRole('region', { name: 'Events', exact: true })
  await page.getByRole('button', { name: 'Record an event' }).click()
  await dialog.getByLabel('Exchanged').check()
  await dialog.getByLabel('Note').fill('Size 10.')
  await dialog.getByRole('button', { name: 'Record the event' }).click()
  await expect(page.getByText('The event is recorded.')).toContainText('Exchanged, left kidney')
  await page.getByRole('button', { name: /^Undo/ }).press('Enter')
  await expect(page.getByText('The event is taken back')).toBeVisible()
  await expect(events.locator('del')).toContainText('Exchanged')
  await expect(events).toContainText(/Taken back .* by R\. Okafor/)
  await events.getByRole('button', { name: /^Withdraw the event position checked/ }).click()
  await dialog.getByLabel('Why').fill('It was the other patient.')
  await dialog.getByRole('button', { name: 'Withdraw the event' }).click()
  await expect(events).toContainText(/Withdrawn .* by R\. Okafor.*: “It was the other patient\.”/)

  await page.getByRole('button', { name: 'Change orders' }).click()
  await dialog.getByLabel('Flush every, hours').fill('12')
  await dialog.getByRole('button', { name: 'Change the orders' }).click()
  await expect(dialog).toContainText('Say why')
  await dialog.getByLabel('Fever from, °C').fill('37.8')
  await dialog.getByLabel('Dressing, which').fill('clear film')
  await dialog.getByLabel('Why').fill('Stiff flushes.')
  await dialog.getByRole('button', { name: 'Change the orders' }).click()
  await expect(page.getByText('The orders are changed.')).toContainText('Fever from, °C: 37.8')
  await expect(page.getByRole('region', { name: 'Call sheet' })).toContainText(/flush 10 mL every 12 h/i)
  const orders = page.getByRole('region', { name: 'Orders and visits' })
  await expect(orders).toContainText('dressing: clear film')
  await expect(orders).toContainText(/Fever from, °C: 37\.8 \(this drain’s own, R\. Okafor.*Stiff flushes\./)
  await page.getByRole('button', { name: /^Undo/ }).click()
  await expect(page.getByText('The change of orders is taken back')).toBeVisible()
  await expect(orders).not.toContainText('37.8 (this drain’s own')
  await orders.getByText('Earlier orders and visits').click()
  await expect(orders.locator('del')).toContainText(/Version 2, .*Stiff flushes\. .*flush 10 mL every 12 h/i)
  await expectAccessible(page)

  await orders.getByRole('link', { name: 'Add a drain' }).click()
  await page.getByLabel('Side', { exact: true }).selectOption('right')
  await page
    .getByLabel('Placed, patient’s time')
    .fill(new Date(Date.now() - 3 * 86_400_000).toISOString().slice(0, 16))
  await page.getByRole('button', { name: 'Add the drain' }).click()
  await expect(page.getByText('Something above still needs a look')).toBeVisible()
  await expectAccessible(page)
  await page.getByLabel('Why', { exact: true }).fill('A second tube.')
  await page.getByRole('button', { name: 'Add the drain' }).click()
  await expect(orders.getByRole('heading', { name: /^Right kidney/ })).toBeVisible()
  await orders
    .getByRole('button', { name: /^Correct what this drain was enrolled as/ })
    .nth(1)
    .click()
  await dialog.getByLabel('Plain name').fill('upper right kidney')
  const placed = new Date(Date.now() - 5 * 86_400_000).toISOString().slice(0, 16)
  await dialog.getByLabel('Placed, patient’s time').fill(placed)
  await expect(dialog).toContainText('Days since placement, what is due')
  await dialog.getByLabel('Why').fill('There will be two.')
  await dialog.getByRole('button', { name: 'Correct the drain' }).click()
  await expect(orders.getByRole('heading', { name: /^Upper right kidney/ })).toBeVisible()
  await expect(
    page.getByText(/Drain corrected: Right kidney .*placed .* is upper right kidney .*placed /),
  ).toBeVisible()

  await page.getByRole('button', { name: 'New check-in link' }).click()
  await dialog.getByRole('button', { name: 'Make a new link' }).click()
  await expect(dialog.getByLabel('Check-in link')).toHaveValue(/\/check-in\/[^#]+#/)
  await expectAccessible(page)
})

test('what is known of the person is changed, and the call sheet says whom to ask for and what weighs', async ({
  page,
  server,
}) => {
  const { patientId } = await enrolPerson(server, 'Wilhelmina Oakapple (invented)')
  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${patientId}`)
  const sheet = page.getByRole('region', { name: 'Call sheet' })
  await expect(sheet).toContainText('Not asked: blood thinners, immune system, allergies.')
  await page.getByRole('button', { name: 'Change the details' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('Blood thinners').selectOption('yes')
  await dialog.getByRole('button', { name: 'Another contact' }).click()
  await dialog.getByLabel('Name').nth(1).fill('Basil Oakapple (invented)')
  await dialog.getByLabel('Related how').fill('son')
  await dialog.getByLabel('Phone').nth(1).fill('555-0177')
  await dialog.getByRole('button', { name: 'Change the details' }).click()
  await expect(dialog).toContainText('Say why')
  await expectAccessible(page)
  await dialog.getByLabel('Why').fill('Asked on the phone.')
  await dialog.getByRole('button', { name: 'Change the details' }).click()
  await expect(page.getByText('The details are changed.')).toBeVisible()
  await expect(sheet).toContainText('Weighs on the call: takes blood thinners.')
  await expect(sheet).toContainText('Basil Oakapple (invented) (son, 555-0177)')
  await expect(page.getByRole('region', { name: 'Person and calls' })).toContainText(
    'son; 555-0177; no voicemail',
  )
})

test('holds at 320 px and in the dark, says what it is, and names nobody in its title', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'coordinator')
  await page.locator('[data-row-link]').first().click()
  await expect(page.getByRole('heading', { name: 'Call sheet' })).toBeVisible()
  await expect(page.getByRole('contentinfo')).toContainText('Decision support, not a diagnosis')
  await expect(page).toHaveTitle('Patient · Outflow Round')
  expect(await (await page.request.get(page.url())).text()).not.toMatch(/ style="/)
  await expect(page.getByRole('button', { name: 'Change orders' })).toHaveCount(0)
  await expectAccessible(page)
  await page.emulateMedia({ colorScheme: 'dark' })
  await page.setViewportSize({ width: 320, height: 640 })
  await expectAccessible(page)
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320)
})

test('the numbers in the table are those of the store, whatever the name', async ({ page, server }) => {
  const name =
    'ליאורה אבן־חן Nguye\u0302\u0303n-Maximiliana-Philippa-Theodora von und zu Oberwiesenthal (invented)'
  const { patientId } = await enrolPerson(server, name)
  await signIn(page, server, 'nurse')
  const door = `/api/patients/${patientId}`
  const { record } = await (await page.request.get(door)).json()
  const now = Date.now()
  for (const [i, volumeMl] of [310.5, 420, 395.2, 0, 380].entries()) {
    const at = new Date(now - (5 - i) * 20 * 3_600_000).toISOString()
    const answer = await page.request.post(`${door}/reports`, {
      headers: { origin: server.origin, 'Idempotency-Key': randomUUID() },
      data: { readings: [{ drain: record.drains[0].id, at, volumeMl }] },
    })
    expect(answer.ok(), await answer.text()).toBe(true)
  }
  await page.goto(`/patients/${patientId}`)
  const heading = await page.getByRole('heading', { level: 1 }).textContent()
  expect(heading?.normalize()).toBe(name.normalize())
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(page.viewportSize()?.width)
  await page.getByRole('button', { name: 'table', exact: true }).click()
  const rows = page.getByRole('region', { name: 'Timeline as a table' }).locator('tbody tr')
  const shown = (await rows.locator('td:first-of-type').allTextContents()).map(
    (text) => text.match(/(-?[\d.]+) mL/)?.[1],
  )
  const { assessment } = await (await page.request.get(door)).json()
  const days: { netMl: number | null }[] = assessment.drains[0].days
  const inStore = days.flatMap(({ netMl }) => (netMl === null ? [] : [netMl]))
  expect(shown.filter(Boolean)).toHaveLength(inStore.length)
  const sum = (numbers: number[]) => numbers.reduce((total, one) => total + one, 0)
  expect(sum(inStore)).toBeCloseTo(310.5 + 420 + 395.2 + 380, 6)
  for (const [i, text] of shown.filter(Boolean).entries())
    expect(Number(text)).toBeCloseTo(inStore.at(-1 - i) ?? Number.NaN, 0)
})

test.describe('a patient who is not there', () => {
  test.use({ expectedErrors: [/404/] })
  test('is a page that says so', async ({ page, server }) => {
    await signIn(page, server, 'nurse')
    await page.goto('/patients/nobody')
    await expect(page.getByRole('heading', { name: 'There is no such page' })).toBeVisible()
    await expectAccessible(page)
  })
})
