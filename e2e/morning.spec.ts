import type { Page } from '@playwright/test'
import type { CheckInView } from '../lib/domain/check-in.ts'
import type { PatientPage } from '../lib/domain/patient-page.ts'
import type { Worklist } from '../lib/domain/worklist.ts'
import { expectAccessible } from './support/axe.ts'
import { answerAll, openLink, phone, screen, send } from './support/check-in.ts'
import { askFrom } from './support/doors.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// One morning's work: a report from a kitchen, the open worklists of two nurses, a call, a row that leaves.

test.use({
  house: 'morning',
  // What Chromium notes where the second nurse is refused the row.
  expectedErrors: [/status of 409 .*\/hold\)$/],
})

const DAY_MS = 86_400_000
const NAME = 'Philippa Stour-Hadley (invented)'

const rows = (page: Page) => page.locator('tbody tr[data-row]')
const rowOf = (page: Page, id: string) => page.locator(`tr[data-row="${id}"]`)

/** A week of about 400 mL a day, each day flushed and the dressing changed, so that nothing is due. */
async function reportAWeek(page: Page) {
  const { asOf, drains } = await askFrom<CheckInView>(page, 'GET', '/api/check-in')
  const drain = drains[0]?.id
  const days = [7, 6, 5, 4, 3, 2, 1].map((ago) => ({
    drain,
    at: new Date(Date.parse(asOf) - ago * DAY_MS).toISOString(),
    volumeMl: 400 + ago * 3,
  }))
  await askFrom(page, 'POST', '/api/check-in', {
    readings: days,
    flushes: days.map((day) => ({ ...day, volumeMl: 10, ease: 'easy' })),
    dressings: days.map(({ at }) => ({ drain, at, found: 'clean', skin: 'intact', changed: true })),
  })
}

/** Marks the page as it is open now; a reload would lose the mark. */
const mark = (page: Page) => page.evaluate(() => Object.assign(window, { openSinceMorning: true }))
const expectNotReloaded = async (page: Page) =>
  expect(await page.evaluate(() => 'openSinceMorning' in window), 'not reloaded').toBe(true)

/** The night's at-once rows are called first, as a nurse would. */
async function callAllAtOnce(page: Page) {
  const { asOf, rows } = await askFrom<Worklist>(page, 'GET', '/api/worklist')
  for (const { patientId, flags } of rows.filter(({ urgency }) => urgency === 'at-once'))
    await askFrom(page, 'POST', `/api/patients/${patientId}/callbacks`, {
      outcome: 'reached',
      spokenTo: 'patient',
      agreed: ['emergency-department'],
      closes: flags.map(({ id }) => id),
      lookAgainAt: new Date(Date.parse(asOf) + DAY_MS).toISOString(),
    })
}

test('a fall and a fever at home are on top of the open worklist within 2 s; one nurse takes and calls', async ({
  page: first,
  openBrowser,
  server,
}) => {
  test.setTimeout(120_000)
  const second = await (await openBrowser()).newPage()
  const patient = await (await openBrowser(phone)).newPage()
  const { patientId, link } = await enrolPerson(server, NAME)
  const callbacks = async () =>
    (await askFrom<PatientPage>(first, 'GET', `/api/patients/${patientId}`)).callbacks

  await test.step('days of about 400 mL, and two nurses at their worklists', async () => {
    await openLink(patient, link)
    await reportAWeek(patient)
    await patient.reload()
    await screen(patient, 'How do you feel?')
    await signIn(first, server, 'nurse', 0)
    await callAllAtOnce(first)
    await signIn(second, server, 'nurse', 1)
    for (const nurse of [first, second]) {
      await expect(nurse.getByRole('heading', { level: 1, name: 'Worklist' })).toBeAttached()
      await expect(rows(nurse).first()).toBeVisible()
      await expect(rowOf(nurse, patientId)).toHaveCount(0)
      await mark(nurse)
    }
    await expectAccessible(first)
  })

  await test.step('the patient reports 120 mL and a fever, and is told what to do', async () => {
    await answerAll(patient, { ml: '120', temperature: '101.5' })
    await screen(patient, 'Do this now')
    await expect(patient.getByText('Go to the nearest emergency department now')).toBeVisible()
    await patient.getByRole('button', { name: 'Go on with the form' }).click()
    await screen(patient, 'Is this right?')
  })

  await test.step('the open worklist shows it on top, at once', async () => {
    const top = first.locator(`tbody tr[data-row="${patientId}"]:first-child`)
    const sent = performance.now()
    const seen = top.waitFor().then(() => Math.round(performance.now() - sent))
    await send(patient).click()
    const ms = await seen
    test.info().annotations.push({ type: 'from Send to the row on top', description: `${ms} ms` })
    // The aim is 2 s and the figure stands in docs/measurements.md; a busy machine must not fail the journey.
    expect(ms, 'ms from Send to the row on top').toBeLessThan(10_000)
    await screen(patient, 'The clinic has your report')

    await expect(rows(first).first()).toHaveAttribute('data-row', patientId)
    await expect(top).toContainText('At once')
    await expect(top).toContainText('a blocked and infected kidney is possible')
    await expect(top).toContainText(NAME)
    await expect(top).toContainText('12 Mar 1958')
    await expect(rows(second).first()).toHaveAttribute('data-row', patientId)
    await expectAccessible(first)
  })

  await test.step('one nurse takes it; the other sees who has it and cannot take it', async () => {
    await rowOf(first, patientId)
      .getByRole('button', { name: `Take ${NAME}` })
      .click()
    await expect(rowOf(first, patientId)).toContainText('you · 5 min')
    const theirs = rowOf(second, patientId)
    await expect(theirs).toContainText('R. Okafor (invented) · 5 min')
    await expect(theirs.getByRole('button')).toHaveCount(0)

    await theirs.getByRole('link', { name: NAME }).focus()
    await second.keyboard.press('Space')
    await expect(second.getByRole('status').filter({ hasText: NAME })).toContainText(
      'Taken by R. Okafor (invented) until',
    )
    await expect(theirs).toContainText('R. Okafor (invented)')
    await expect(rowOf(first, patientId)).toContainText('you')
  })

  await test.step('before the call the nurse reads the patient’s page', async () => {
    await expectNotReloaded(first)
    await rowOf(first, patientId).getByRole('link', { name: NAME }).click()
    await expect(first.getByRole('heading', { level: 1, name: NAME })).toBeVisible()
    await expect(first.getByText('with you, 5 min left')).toBeVisible()
    await expectAccessible(first)
    await first.goBack()
    await expect(rows(first).first()).toHaveAttribute('data-row', patientId)
  })

  await test.step('the call is recorded once, though pressed twice, and the row leaves for both', async () => {
    await rowOf(first, patientId)
      .getByRole('button', { name: `Record call to ${NAME}` })
      .click()
    const call = first.getByRole('dialog', { name: `Call to ${NAME}` })
    await call.getByLabel('Reached', { exact: true }).check()
    await call.getByLabel('Patient', { exact: true }).check()
    await call.getByLabel('To the emergency department').check()
    await call.getByLabel('All of these').check()
    await expectAccessible(first)
    const record = call.getByRole('button', { name: 'Record the call' })
    await record.click()
    await expect(call.getByText('What you close still holds: say when to look again.')).toBeVisible()
    await call.getByRole('button', { name: 'Tomorrow 08:00' }).click()
    await call.getByLabel('Note').fill('A neighbour drives; the ward is told.')
    await record.dblclick()

    await expect(call).toBeHidden()
    await expect(first.getByText(`The call to ${NAME} is recorded.`)).toBeVisible()
    await expect(rowOf(first, patientId)).toHaveCount(0)
    // Where somebody else reads, nothing jumps: the row that has left is greyed in its place.
    await expect(rowOf(second, patientId)).toHaveAttribute('data-gone', 'true')
    await expectNotReloaded(second)
    expect(await callbacks()).toEqual([
      expect.objectContaining({
        by: 'R. Okafor (invented)',
        outcome: 'reached',
        spokenTo: 'patient',
        agreed: ['emergency-department'],
        note: 'A neighbour drives; the ward is told.',
        lookAgainAt: expect.any(String),
      }),
    ])
  })

  await test.step('forward, back and a reload change nothing', async () => {
    await first.goForward()
    await expect(first.getByRole('heading', { level: 1, name: NAME })).toBeVisible()
    const calls = first.getByRole('region', { name: 'Calls' }).getByRole('listitem')
    await expect(calls).toHaveCount(1)
    await expect(calls).toContainText('to the emergency department')
    await first.goBack()
    await expect(first.getByRole('heading', { level: 1, name: 'Worklist' })).toBeAttached()
    await expect(rows(first).first()).toBeVisible()
    await expect(rowOf(first, patientId)).toHaveCount(0)
    await first.reload()
    await expect(rows(first).first()).toBeVisible()
    await expect(rowOf(first, patientId)).toHaveCount(0)
    await expect(first.getByRole('dialog')).toHaveCount(0)
    expect(await callbacks()).toHaveLength(1)
  })
})
