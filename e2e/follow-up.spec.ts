import { expectAccessible } from './support/axe.ts'
import { checkInDoor } from './support/doors.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const DAY_MS = 86_400_000
/** A local time as a field for a day and a time takes it. */
const localTime = (ms: number) => {
  const parts = new Intl.DateTimeFormat('sv-SE', {
    timeZone: 'America/Denver',
    dateStyle: 'short',
    timeStyle: 'short',
  }).format(ms)
  return parts.replace(' ', 'T')
}

test('a booked exchange silences its reminder, called off it comes back; done, the tube is new', async ({
  page,
  server,
}) => {
  const { patientId } = await enrolPerson(server, 'Odile Farthingale (invented)', {
    plan: { logEveryHours: 24, dressingEveryHours: 1000, exchangeEveryDays: 20 },
  })
  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${patientId}`)
  const dialog = page.getByRole('dialog')
  const flags = page.getByRole('region', { name: 'Flags' })
  const orders = page.getByRole('region', { name: 'Orders and visits' })
  const standing = flags.getByRole('heading', { name: /Exchange to book.*open/ })
  await expect(standing).toBeVisible()

  await page.getByRole('button', { name: 'Visits' }).click()
  await dialog.getByRole('button', { name: 'Note the visit' }).click()
  await expect(dialog).toContainText('Say which visit.')
  await dialog.getByLabel('Exchange').check()
  await dialog.getByLabel('Book it').check()
  await dialog.getByLabel('Booked for, clinic time').fill(localTime(Date.now() + 4 * DAY_MS))
  await expectAccessible(page)
  await dialog.getByRole('button', { name: 'Note the visit' }).click()
  await expect(page.getByText('The visit is noted.')).toBeVisible()
  await expect(orders).toContainText('Exchange booked')
  await expect(standing).toHaveCount(0)
  await expect(page.getByRole('region', { name: 'Call sheet' })).toContainText('exchange booked')

  await page.getByRole('button', { name: 'Visits' }).click()
  await dialog.getByLabel('Call it off').check()
  await dialog.getByLabel('Why, or a note').fill('No room.')
  await dialog.getByRole('button', { name: 'Note the visit' }).click()
  await expect(standing).toBeVisible()

  await page.getByRole('button', { name: 'Visits' }).click()
  await dialog.getByLabel('Exchange').check()
  await dialog.getByLabel('Ask for it').check()
  await dialog.getByRole('button', { name: 'Note the visit' }).click()
  await expect(orders).toContainText('Exchange requested')
  await page.getByRole('button', { name: 'Visits' }).click()
  await dialog.getByLabel('It was done').check()
  await dialog.getByRole('button', { name: 'Note the visit' }).click()
  await expect(standing).toHaveCount(0)
  await orders.getByText('Earlier orders and visits').click()
  await expect(orders).toContainText('Exchange done')
  await expect(orders).toContainText('Exchange called off')
})

test('follow-up ends with care, a late report reaches the list, and the end is undone', async ({
  page,
  server,
  openBrowser,
}) => {
  const person = await enrolPerson(server, 'Tancred Willowby (invented)')
  const { send, drain } = await checkInDoor(server, person)
  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${person.patientId}`)
  const dialog = page.getByRole('dialog')
  await page.getByRole('button', { name: 'End follow-up' }).click()
  await dialog.getByLabel('Declined follow-up').check()
  await expect(dialog).toContainText('Record the removal first, or ask a physician')
  await expectAccessible(page)
  await dialog.getByRole('button', { name: 'End follow-up' }).click()
  await expect(dialog).toContainText('Not with a drain in place')
  await dialog.getByRole('button', { name: 'Cancel' }).click()

  const physician = await (await openBrowser()).newPage()
  await signIn(physician, server, 'physician')
  await physician.goto(`/patients/${person.patientId}`)
  const theirs = physician.getByRole('dialog')
  await physician.getByRole('button', { name: 'End follow-up' }).click()
  await theirs.getByLabel('Declined follow-up').check()
  await theirs.getByRole('button', { name: 'End follow-up' }).click()
  await expect(theirs).toContainText('say why it ends all the same')
  await expect(theirs).toContainText('Check who it is first.')
  await theirs.getByLabel('Why, with a drain in place').fill('They know what may happen.')
  await theirs.getByLabel(/checked against the chart/).check()
  await theirs.getByRole('button', { name: 'End follow-up' }).click()
  const notice = page.getByRole('region', { name: 'Follow-up has ended' })
  await expect(notice).toContainText('declined follow-up')
  await expect(notice).toContainText('They know what may happen.')
  await expectAccessible(page)

  const at = new Date().toISOString()
  const answer = await send(
    { symptoms: { at, temperatureC: 39.2, drains: [{ drain, leak: false }] } },
    'late-1',
  )
  expect(answer.status).toBeLessThan(300)
  await expect(notice).toContainText('a report came after follow-up ended')
  await page.goto('/')
  const row = page.locator(`tr[data-row="${person.patientId}"]`)
  await expect(row).toContainText('A report came after follow-up ended (declined follow-up).')
  await expect(row).toContainText('Within 1 hour')
  await expect(row).toContainText('39.2')

  await row.locator('[data-row-link]').click()
  await notice.getByRole('button', { name: 'Take back into follow-up' }).click()
  await dialog.getByLabel('Why').fill('They changed their mind.')
  await dialog.getByRole('button', { name: 'Follow-up goes on' }).click()
  await expect(notice).toHaveCount(0)
})

test('after its removal a drain ends follow-up; a death is undone by two people', async ({
  page,
  server,
  openBrowser,
}) => {
  const { patientId } = await enrolPerson(server, 'Sunniva Pebblebrook (invented)')
  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${patientId}`)
  const dialog = page.getByRole('dialog')
  await page.getByRole('button', { name: 'Record an event' }).click()
  await dialog.getByLabel('Removed').check()
  await dialog.getByRole('button', { name: 'Record the event' }).click()
  await expect(page.getByText('The event is recorded.')).toBeVisible()
  const endIt = async (reason: string) => {
    await page.getByRole('button', { name: 'End follow-up' }).click()
    await dialog.getByLabel(reason).check()
    await dialog.getByLabel(/checked against the chart/).check()
    await dialog.getByRole('button', { name: 'End follow-up' }).click()
  }
  await endIt('Every drain is out')
  const notice = page.getByRole('region', { name: 'Follow-up has ended' })
  await expect(notice).toContainText('every drain is out')
  await notice.getByRole('button', { name: 'Take back into follow-up' }).click()
  await dialog.getByLabel('Why').fill('Ended for the wrong person.')
  await dialog.getByRole('button', { name: 'Follow-up goes on' }).click()
  await expect(notice).toHaveCount(0)

  await endIt('Died')
  await notice.getByRole('button', { name: 'Take back into follow-up' }).click()
  await dialog.getByLabel('Why').fill('It was the neighbour.')
  await dialog.getByRole('button', { name: 'Ask to undo the death' }).click()
  await expect(notice).toContainText('Another person has to confirm it.')
  await expect(notice.getByRole('button')).toHaveCount(0)

  const other = await (await openBrowser()).newPage()
  await signIn(other, server, 'coordinator')
  await other.goto(`/patients/${patientId}`)
  await other.getByRole('button', { name: 'Confirm, and go on' }).click()
  await other.getByRole('dialog').getByLabel('Why').fill('Spoken to them.')
  await other.getByRole('dialog').getByRole('button', { name: 'Confirm: follow-up goes on' }).click()
  await expect(other.getByRole('region', { name: 'Follow-up has ended' })).toHaveCount(0)
  await expect(notice).toHaveCount(0)
})
