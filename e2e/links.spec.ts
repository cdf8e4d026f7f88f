import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { openLink, phone, report, screen } from './support/check-in.ts'
import { askFrom, post } from './support/doors.ts'
import { enrolPerson } from './support/person.ts'
import type { Server } from './support/server.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// A link that is over answers 401, settings that are not accepted 400: a browser counts both as errors of its page.
test.use({ house: 'links', expectedErrors: [/401|400 .*\/api\/clinic\)/] })

const DAY_MS = 86_400_000

/** Opens the dialog of a patient's links, as whoever is signed in on this page. */
async function openDialog(page: Page, patientId: string) {
  await page.goto(`/patients/${patientId}`)
  await page.getByRole('button', { name: /check-in link/i }).click()
  return page.getByRole('dialog')
}

async function shownLink(page: Page): Promise<string> {
  const field = page.getByRole('dialog').getByLabel('Check-in link')
  await expect(field).toHaveValue(/\/check-in\/[^#]+#/)
  return field.inputValue()
}

const nurseWith = async (page: Page, server: Server, name: string) => {
  const person = await enrolPerson(server, name)
  await signIn(page, server, 'nurse')
  return { person, dialog: await openDialog(page, person.patientId) }
}

test('what comes by a helper’s link stands under the helper’s name', async ({
  page,
  server,
  openBrowser,
}) => {
  const { person, dialog } = await nurseWith(page, server, 'Hilda Invented')
  await dialog.getByRole('button', { name: 'Link for a helper' }).click()
  await dialog.getByRole('button', { name: 'Make the helper’s link' }).click()
  await expect(dialog.getByText('Give the helper’s name.')).toBeVisible()
  await dialog.getByLabel('Helper’s name').fill('Rosa Invented, daughter')
  await dialog.getByRole('button', { name: 'Make the helper’s link' }).click()
  const link = await shownLink(page)
  await expect(dialog.getByRole('list', { name: 'Links' }).getByRole('listitem')).toHaveCount(2)
  await expectAccessible(page)

  const helper = await (await openBrowser(phone)).newPage()
  await openLink(helper, link)
  const note = 'She slept well.'
  await askFrom(helper, 'POST', '/api/check-in', { note, reporter: 'patient' })
  await openDialog(page, person.patientId)
  await expect(dialog.getByText(/last opened/)).toBeVisible()
  await page.keyboard.press('Escape')
  const sent = page.getByRole('article').filter({ hasText: note })
  await expect(sent.getByRole('heading')).toContainText('Rosa Invented, daughter')
})

test('a lost phone’s link is replaced in one step: the old phone is out', async ({
  page,
  server,
  openBrowser,
}) => {
  const { person, dialog } = await nurseWith(page, server, 'Lothar Invented')
  const lost = await (await openBrowser(phone)).newPage()
  await openLink(lost, person.link)
  await dialog.getByRole('button', { name: 'Replace the link of Patient' }).click()
  const link = await shownLink(page)

  const status = await lost.evaluate(async () => (await fetch('/api/check-in')).status)
  expect(status).toBe(401)
  const { hash } = new URL(person.link)
  expect((await post(`${server.origin}/api/link`, { token: hash.slice(1) })).status).toBe(401)
  const found = await (await openBrowser(phone)).newPage()
  await openLink(found, link)
})

test('the clinic’s numbers and hours are edited, and seen by the patient', async ({
  page,
  server,
  openBrowser,
}) => {
  const person = await enrolPerson(server, 'Nadia Invented')
  await signIn(page, server, 'charge-nurse')
  await page.getByRole('link', { name: 'Settings' }).click()
  await expect(page.getByRole('heading', { level: 1, name: 'Clinic' })).toBeVisible()
  await expectAccessible(page)
  const save = page.getByRole('button', { name: 'Save the settings' })
  await page.getByLabel('Phone', { exact: true }).fill('ask at the desk')
  await save.click()
  await expect(page.getByText('accepted: a phone number, such as +1 555 0142')).toBeVisible()
  await page.getByLabel('Phone', { exact: true }).fill('+1 555 0177')
  await page.getByRole('button', { name: 'Add hours on Sunday' }).click()
  await page.getByRole('button', { name: 'Add a holiday' }).click()
  await page.getByLabel('Holiday 1, day').fill('2027-01-01')
  await page.getByLabel('Holiday 1, name').fill('New Year')
  // The form keeps its key from the try that was refused: nothing was stored by it.
  await save.click()
  await expect(page.getByText('The settings are saved.')).toBeVisible()
  await expect(page.getByText(/^Last changed .* by /)).toBeVisible()

  const theirs = await (await openBrowser(phone)).newPage()
  await openLink(theirs, person.link)
  await expect(theirs.locator('a[href="tel:+15550177"]').first()).toBeVisible()
  const { clinic } = await askFrom<{ clinic: { hours: { week: object; holidays: object[] } } }>(
    theirs,
    'GET',
    '/api/check-in',
  )
  expect(Object.keys(clinic.hours.week)).toContain('sun')
  expect(clinic.hours.holidays).toEqual([{ date: '2027-01-01', name: 'New Year' }])
})

test('a text is written, approved by a physician, and read on the receipt', async ({
  page,
  server,
  openBrowser,
}) => {
  const person = await enrolPerson(server, 'Olaf Invented')
  const words = 'Do first what we told you at the desk.'
  await signIn(page, server, 'charge-nurse')
  await page.goto('/settings/texts')
  const last = page.getByRole('region', { name: 'Always, at the end' })
  await last.getByRole('button', { name: 'Write another version in English' }).click()
  await page.getByLabel('Text', { exact: true }).fill(words)
  await page.getByRole('button', { name: 'Keep this version' }).click()
  await expect(last.getByText('Not approved: patients do not read it yet')).toBeVisible()
  await expect(last.getByRole('button', { name: /^Approve/ })).toHaveCount(0)
  await expectAccessible(page)

  const physician = await (await openBrowser()).newPage()
  await signIn(physician, server, 'physician')
  await physician.goto('/settings/texts')
  await physician.getByRole('button', { name: 'Approve version 1 in English' }).click()
  await expectAccessible(physician)
  await physician.getByRole('button', { name: 'Approve it' }).click()
  await expect(physician.getByText('The version is approved: patients read it from now on.')).toBeVisible()

  const theirs = await (await openBrowser(phone)).newPage()
  await openLink(theirs, person.link)
  await report(theirs, '390')
  await screen(theirs, 'The clinic has your report')
  await expect(theirs.getByText(words)).toBeVisible()
})

test('a link that has ended is renewed with a code that a nurse reads out', async ({ page, server }) => {
  const { person } = await nurseWith(page, server, 'Petra Invented')
  const token = new URL(person.link).hash.slice(1)
  server.moveClock(181 * DAY_MS)
  expect((await post(`${server.origin}/api/link`, { token })).status).toBe(401)

  await page.context().clearCookies()
  await signIn(page, server, 'nurse')
  const dialog = await openDialog(page, person.patientId)
  await expect(dialog.getByText(/expired/)).toBeVisible()
  await dialog.getByRole('button', { name: 'Code to renew' }).click()
  const code = (await dialog.getByText(/^\d{4} \d{4}$/).textContent()) ?? ''
  const renew = (given: string) => post(`${server.origin}/api/link/renew`, { token, code: given })
  expect((await renew('0000 0000')).status).toBe(401)
  expect((await renew(code)).status).toBe(200)
  expect((await renew(code)).status).toBe(401)
  expect((await post(`${server.origin}/api/link`, { token })).status).toBe(200)
})
