import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

/** Pastes as a browser does: the text is in the clipboard of the event. */
const paste = (page: Page, label: string, text: string) =>
  page.getByLabel(label, { exact: true }).evaluate((box, given) => {
    const data = new DataTransfer()
    data.setData('text/plain', given)
    box.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))
  }, text)
const day = (ago: number) => new Date(Date.now() - ago * 86_400_000).toISOString().slice(0, 10)

test('a nurse enters a report by phone with the keyboard alone, in few presses', async ({ page, server }) => {
  const { patientId, reports } = await enrolPerson(server, 'Peregrine Ashgrove (invented)')
  await signIn(page, server, 'nurse')
  await page.goto(`/patients/${patientId}`)
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Peregrine Ashgrove (invented)')
  let presses = 0
  const press = async (...keys: string[]) => {
    for (const key of keys) {
      await page.keyboard.press(key)
      presses += 1
    }
  }
  await expect(async () => {
    await page.keyboard.press('r')
    await expect(page.getByRole('dialog')).toBeVisible({ timeout: 1_000 })
  }).toPass()
  presses = 1
  const dialog = page.getByRole('dialog')
  await expect(dialog.getByLabel('Came out, mL')).toBeFocused()
  await press('3', '1', '0', 'Tab')
  await expect(dialog.getByRole('button', { name: /just now/ }).first()).toBeFocused()
  await press('Tab', 'r')
  await expect(dialog.getByLabel('Looks')).toHaveValue('red')
  await press('Enter')
  await expect(dialog).toBeHidden()
  expect(presses).toBeLessThanOrEqual(8)
  await expect(page.getByText('Read out to them:')).toBeVisible()
  const [report] = await reports()
  expect(report?.readings).toMatchObject([{ volumeMl: 310, appearance: 'red' }])
})

test('a paper log is pasted, its faults are shown row by row, and it is stored once', async ({
  page,
  server,
}) => {
  const { patientId, reports } = await enrolPerson(server, 'Ottoline Fernsby (invented)')
  await signIn(page, server, 'nurse')
  await page.setViewportSize({ width: 1366, height: 768 })
  await page.goto(`/patients/${patientId}`)
  await page.getByRole('link', { name: 'Paper log' }).click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Paper log of Ottoline Fernsby (invented)')

  const rows = (count: number, line: (i: number) => string) =>
    Array.from({ length: count }, (_, i) => line(i))
  await paste(page, 'Paste from a spreadsheet', rows(5000, () => `${day(2)}\t8:00\t1\t300`).join('\n'))
  await expect(page.getByText(/That makes 5,000 rows: one sheet takes at most 500/)).toBeVisible()
  await expect(page.getByLabel('Paste from a spreadsheet')).toHaveValue(/300$/)
  await page.getByLabel('Paste from a spreadsheet').fill('')

  const table = [
    'Date\tTime\tOutput\tLooks\tTemp\tPatient\tWeather',
    `${day(3)}\t8:00\t310\tclear\t36.9\t\train`,
    `${day(3)}\t20:00\t12 oz\tclear\t\t\t`,
    `${day(2)}\t8:00\t290\tpurple\t\t\t`,
    `${day(2)}\t20:00\t?\t\t\tSomebody Else\t`,
  ]
  await paste(page, 'Paste from a spreadsheet', table.join('\n'))
  await expect(page.getByText(/4 rows laid into the sheet.*no such column: Weather/)).toBeVisible()
  await page.getByRole('button', { name: 'Store the rows' }).click()
  await expect(page.getByText('2 rows at fault, marked in the sheet; nothing is stored.')).toBeVisible()
  await expect(page.getByText(/Row 3, Looks “purple” accepted: clear, straw/)).toBeVisible()
  await expect(
    page.getByText(/Row 4, Patient “Somebody Else” is somebody else: this sheet is for Ottoline/),
  ).toBeVisible()
  await expect(page.getByText(/Some volumes are in ounces or cups/)).toBeVisible()
  await expectAccessible(page)
  expect(await reports()).toEqual([])

  await page.reload() // nothing that was typed is lost
  await expect(page.getByLabel('mL, row 2', { exact: true })).toHaveValue('12 oz')
  await page.getByLabel('Looks, row 3').fill('pink')
  await page.getByLabel('Patient, row 4').fill('')
  await page.getByRole('button', { name: 'Check the rows' }).click()
  await page.getByRole('radio', { name: 'mL' }).check()
  await page.getByRole('button', { name: 'Check the rows' }).click()
  await expect(page.getByText('4 rows as accepted: 2 reports to be stored.')).toBeVisible()
  await page.getByRole('button', { name: 'Store the rows' }).dblclick()
  await expect(page.getByText(/Stored: 2 reports from 4 rows/)).toBeVisible()
  const volumes = (await reports()).flatMap(({ readings = [] }) => readings.map(({ volumeMl }) => volumeMl))
  expect(volumes.toSorted()).toEqual([290, 310, 354.9, null])
})
