import { expectAccessible } from './support/axe.ts'
import { askFrom } from './support/doors.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const DAY_MS = 86_400_000

test('a file of reports is looked at, mended, taken in, and adds nothing the second time', async ({
  page,
  server,
}) => {
  const person = await enrolPerson(server, 'Quill Paperlog (invented)')
  await signIn(page, server, 'nurse')
  const { patient } = await askFrom<{ patient: { recordNumber: string } }>(
    page,
    'GET',
    `/api/patients/${person.patientId}`,
  )
  const day = (ago: number) => `${new Date(Date.now() - ago * DAY_MS).toISOString().slice(0, 10)} 08:05`
  const header = 'record_number,drain,at,volume_ml,temperature_c'
  const lines = [5, 4, 3, 2].map((ago) => `${patient.recordNumber},left kidney,${day(ago)},${300 + ago},`)
  const choose = (text: string) =>
    page
      .getByLabel('File', { exact: true })
      .setInputFiles({ name: 'log.csv', mimeType: 'text/csv', buffer: Buffer.from(text) })

  await page.getByRole('link', { name: 'Import' }).click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Import reports')
  await expectAccessible(page)
  await choose([header, lines[0], `${patient.recordNumber},9,3/2/2026 8:05,12 oz,98.6`, lines[1]].join('\n'))
  await page.getByRole('button', { name: 'Check the file' }).click()
  await expect(page.getByRole('status')).toHaveText('4 faults in 1 line. Nothing is stored.')
  const faults = page.getByRole('region', { name: /4 faults/ }).getByRole('row')
  await expect(faults).toHaveCount(5)
  await expect(faults.nth(1)).toContainText(/3\s*volume_ml\s*12 oz\s*has a unit; write the number alone/)
  await expect(page.getByRole('button', { name: /^Import/ })).toHaveCount(0)
  await expectAccessible(page)

  await choose([header, ...lines].join('\n'))
  await page.getByRole('button', { name: 'Check the file' }).click()
  await expect(page.getByRole('status')).toHaveText('4 reports of 1 patient can be imported.')
  expect(await person.reports()).toHaveLength(0)
  await page.getByRole('button', { name: 'Import 4 reports' }).click()
  await expect(page.getByRole('status')).toHaveText('4 reports of 1 patient imported and assessed.')
  expect(await person.reports()).toHaveLength(4)

  await page.getByRole('button', { name: 'Check the file' }).click()
  await expect(page.getByRole('status')).toHaveText(/^This file was taken in on .* It adds nothing\.$/)
  await choose([header, ...lines, `${patient.recordNumber},1,${day(1)},310,`].join('\n'))
  await page.getByRole('button', { name: 'Check the file' }).click()
  await page.getByRole('button', { name: 'Import 1 report' }).click()
  await expect(page.getByRole('status')).toHaveText(
    '1 report of 1 patient imported and assessed. 4 lines said before.',
  )
  expect(await person.reports()).toHaveLength(5)
})

test('is for those who may enter reports', async ({ page, server }) => {
  await signIn(page, server, 'administrator')
  await page.goto('/import')
  await expect(page).toHaveURL(/refused/)
})
