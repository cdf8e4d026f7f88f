import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test('a report filed under the wrong patient is moved, and both histories say so', async ({
  page,
  server,
}) => {
  const wrong = await enrolPerson(server, 'Cornelius Thistledown (invented)')
  const right = await enrolPerson(server, 'Cordelia Thistledown (invented)')
  await signIn(page, server, 'nurse')
  await page.setViewportSize({ width: 1366, height: 768 })
  await page.goto(`/patients/${wrong.patientId}`)
  const dialog = page.getByRole('dialog')
  await page.getByRole('button', { name: 'Enter a report by phone' }).click()
  await dialog.getByLabel('Came out, mL').fill('240')
  await dialog.getByRole('button', { name: 'Store the report' }).click()
  await expect(dialog).toBeHidden()

  const reports = page.getByRole('region', { name: 'Reports' })
  await reports.getByRole('button', { name: /^Not theirs/ }).click()
  await dialog.getByRole('button', { name: 'Move the report' }).click()
  await expect(dialog).toContainText('Find and choose the right patient.')
  await dialog.getByLabel('The right patient: name or record number').fill('Cordelia')
  await dialog.getByRole('radio', { name: /Cordelia Thistledown/ }).check()
  await expect(dialog.getByLabel('Left kidney of this report is')).toHaveValue(/.+/)
  await dialog.getByLabel('Why').fill('Both were on the phone.')
  await dialog.getByLabel(/checked with whoever reported/).check()
  await dialog.getByRole('button', { name: 'Move the report' }).click()
  await expect(page.getByText(/The report was moved to Cordelia Thistledown/)).toBeVisible()
  const moved = page.getByRole('list', { name: 'Reports that were moved' })
  await expect(moved).toContainText(
    /was moved to Cordelia Thistledown.*by R\. Okafor.*Both were on the phone\./,
  )
  await expect(reports.getByText('240 mL')).toHaveCount(0)
  expect(await wrong.reports()).toEqual([])
  expect(await right.reports()).toMatchObject([{ readings: [{ volumeMl: 240 }] }])

  await page.goto(`/patients/${right.patientId}`)
  await expect(moved).toContainText(/was moved from Cornelius Thistledown/)
  await expect(reports).toContainText('240 mL')
})

test('deadlines rest while a patient is in hospital, until the drains are confirmed', async ({
  page,
  server,
}) => {
  const { patientId } = await enrolPerson(server, 'Thaddeus Marlowe (invented)')
  await signIn(page, server, 'nurse')
  await page.setViewportSize({ width: 1366, height: 768 })
  await page.goto(`/patients/${patientId}`)
  const dialog = page.getByRole('dialog')
  await page.getByRole('button', { name: 'In hospital' }).click()
  await dialog.getByLabel('Where, if known').fill('Ward 4')
  await dialog.getByRole('button', { name: 'Let the deadlines rest' }).click()
  await expect(page.getByRole('region', { name: 'In hospital' })).toContainText('Ward 4')

  await page.goto('/')
  await expect(page.getByText('In hospital: deadlines rest')).toBeVisible()
  await expect(page.getByRole('row').filter({ hasText: 'Thaddeus Marlowe' })).toContainText('Ward 4')

  await page.goto(`/patients/${patientId}`)
  await page.getByRole('button', { name: 'Home again' }).click()
  await dialog.getByRole('button', { name: 'Confirm the drains' }).click()
  await expect(dialog).toContainText('Say how it was found.')
  await dialog.getByLabel('still in place').check()
  await dialog.getByRole('button', { name: 'Confirm the drains' }).click()
  await expect(page.getByText('Home again: the drains are confirmed')).toBeVisible()
  await expect(page.getByRole('button', { name: 'In hospital' })).toBeVisible()
})
