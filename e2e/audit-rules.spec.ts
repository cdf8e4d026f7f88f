import { randomUUID } from 'node:crypto'
import { expectAccessible } from './support/axe.ts'
import { checkInDoor } from './support/doors.ts'
import { pagesOf } from './support/pdf.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test.use({ house: 'audit-rules' })

const DAY_MS = 86_400_000

/** The Monday of the last week that is over at an instant, in the demo clinic's zone. */
function lastWeek(now: Date): string {
  const parts = new Intl.DateTimeFormat('en-CA', { timeZone: 'America/Denver' }).format(now)
  const day = new Date(`${parts}T00:00:00Z`)
  const back = ((day.getUTCDay() + 6) % 7) + 7
  return new Date(day.getTime() - back * DAY_MS).toISOString().slice(0, 10)
}

test('a rule set is drafted, approved by a second physician, put in force, seen on a flag, and gone back from', async ({
  page,
  server,
  openBrowser,
}) => {
  await signIn(page, server, 'physician')
  await page.goto('/audit/rules')
  await expect(page.getByRole('heading', { name: 'Rule sets', level: 1 })).toBeVisible()
  await expectAccessible(page)
  await page.getByRole('link', { name: 'Write a draft' }).click()

  await page.getByLabel('Reason').fill('Two infections were called late')
  const fever = page.getByLabel('Fever from, in the draft')
  await fever.fill('41')
  await expect(page.getByText(/^From 37\.5 to 39 °C\. Source: .*theii\.org/)).toBeVisible()
  await page.getByRole('button', { name: 'Keep the draft' }).click()
  await expect(page).toHaveURL(/\/new$/)
  await fever.fill('37.8')
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Keep the draft' }).click()

  await expect(page.getByRole('heading', { name: /^Draft 2026\.1\// })).toBeVisible()
  const version = ((await page.getByRole('heading', { level: 1 }).textContent()) ?? '').replace('Draft ', '')
  await page.getByRole('button', { name: 'Propose it' }).click()
  await page.getByLabel('Why without a replay').fill('It is run by hand in this journey')
  await page.getByRole('dialog').getByRole('button', { name: 'Propose it' }).click()
  await expect(page.getByText(/^You proposed it\. Another physician must approve it/)).toBeVisible()
  await expect(page.getByRole('button', { name: 'Approve it' })).toHaveCount(0)
  await expectAccessible(page)

  const second = await (await openBrowser()).newPage()
  await signIn(second, server, 'physician', 1)
  await second.goto(new URL(page.url()).pathname)
  await second.getByRole('button', { name: 'Approve it' }).click()
  await expect(second.getByText('Approved, not in force.')).toBeVisible()

  await page.reload()
  await page.getByRole('button', { name: 'Put it in force' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Put it in force' }).click()
  await expect(page.getByRole('status').filter({ hasText: `${version} is in force.` })).toBeVisible()

  // 37.9 °C is a fever now.
  const person = await enrolPerson(server, 'Tamsin Vale-Orchard (invented)')
  const { send, drain } = await checkInDoor(server, person)
  const at = new Date().toISOString()
  const symptoms = { at, temperatureC: 37.9, chills: false, drains: [], general: [] }
  const readings = [{ drain, at, volumeMl: 400 }]
  expect((await send({ readings, symptoms }, randomUUID())).status).toBe(200)
  await page.goto(`/patients/${person.patientId}`)
  await expect(page.getByText(`Opened under rule set ${version}.`).first()).toBeVisible()

  await page.goto('/audit/rules')
  await page.getByRole('button', { name: /^Go back to this\W+2026\.1$/ }).click()
  await page.getByLabel('Why').fill('Too many calls')
  await page.getByRole('button', { name: 'Put it in force' }).click()
  await expect(page.getByRole('status').filter({ hasText: '2026.1 is in force again.' })).toBeVisible()
  await expect(page.locator('tr[data-now] th')).toHaveText(/^2026\.1\s*SHA-256/)
})

test('the minutes of a week are signed, printed and amended; the earlier ones stay', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'physician')
  const week = lastWeek(new Date())
  await page.goto(`/audit/week/${week}/minutes`)
  await expect(page.getByText('Not signed yet.')).toBeVisible()
  await page.getByLabel('Decisions').fill('Call fevers before nine.')
  const unread = page.getByLabel('Why it is signed before all was read')
  if (await unread.isVisible()) await unread.fill('A short week')
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Sign the minutes' }).click()
  await expect(page.getByText('tried on reading and found to fit')).toBeVisible()

  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'PDF' }).click(),
  ])
  expect(file.suggestedFilename()).toBe(`minutes-${week}.pdf`)
  const parts: Buffer[] = []
  for await (const part of await file.createReadStream()) parts.push(part)
  const printed = await pagesOf(Buffer.concat(parts))
  const text = printed.map((one) => one.text).join('\n')
  expect(text).toContain('Call fevers before nine.')
  expect(text).toContain('SHA-256')
  for (const one of printed) expect(one.text).toContain('Decision support, not a diagnosis.')

  await page.getByRole('button', { name: 'Amend these minutes' }).click()
  await page.getByLabel('Decisions').fill('Call fevers before eight.')
  await page.getByLabel('Why it is amended').fill('The hour was wrong')
  if (await unread.isVisible()) await unread.fill('A short week')
  await page.getByRole('button', { name: 'Sign the amendment' }).click()
  await expect(page.getByRole('status').filter({ hasText: 'The amendment is signed' })).toBeVisible()
  await page.getByText('1 as signed before').click()
  await expect(page.getByText('Call fevers before nine.')).toBeVisible()
  await expectAccessible(page)

  const [table] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'flags.csv' }).click(),
  ])
  expect(table.suggestedFilename()).toBe('registry-flags.csv')
})
