import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { askFrom } from './support/doors.ts'
import { textsOf } from './support/pdf.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const NAME = 'Orla Brackenridge (invented)'

/** A fever and a leak, told by phone before this call. */
async function phoneIn(page: Page, patientId: string) {
  const door = `/api/patients/${patientId}`
  const { record, asOf } = await askFrom<{ record: { drains: { id: string }[] }; asOf: string }>(
    page,
    'GET',
    door,
  )
  const drains = [{ drain: record.drains[0]?.id, leak: true, draining: true }]
  await askFrom(page, 'POST', `${door}/reports`, { symptoms: { at: asOf, temperatureC: 38.6, drains } })
}

test('a call by keyboard: asked, answered, recorded, reported, noted; then on, and back to the same row', async ({
  page,
  server,
}) => {
  test.setTimeout(120_000)
  const { patientId } = await enrolPerson(server, NAME)
  await signIn(page, server, 'nurse')
  await phoneIn(page, patientId)
  await page.goto('/?urgency=at-once,within-1h')
  const view = new URL(page.url()).search
  const row = (id: string) => page.locator(`tr[data-row="${id}"] [data-row-link]`)
  await row(patientId).focus()
  await page.keyboard.press('d')
  const sheet = page.getByRole('region', { name: 'Call sheet' })
  const dialog = page.getByRole('dialog')
  await expect(sheet).toContainText('Temperature 38.6 °C')

  await test.step('a number leads to the report that says it, and what a finding rests on is shown', async () => {
    await sheet.getByRole('link', { name: '38.6 °C' }).first().press('Enter')
    await expect(page.locator('li[id^="report-"]:focus')).toContainText('38.6 °C')
    await sheet.getByRole('link', { name: 'why?' }).first().press('Enter')
    await expect(sheet.getByText(/^Threshold fever with obstruction: 38 °C/)).toBeVisible()
  })

  await test.step('questions are ticked and answered, and stay over a dialog', async () => {
    await page.keyboard.press('q')
    const temperature = sheet.getByRole('textbox', { name: 'Temperature now?' })
    await expect(temperature).toBeFocused()
    await page.keyboard.type('29')
    await expect(sheet.getByText('From 30 to 45 °C')).toBeVisible()
    await temperature.fill('39.1')
    await page.keyboard.press('Enter')
    await expect(sheet.getByRole('combobox', { name: 'Shaking or chills?' })).toBeFocused()
    await page.keyboard.type('y')
    await expect(sheet.getByRole('checkbox', { name: 'Shaking or chills?' })).toBeChecked()
    await sheet.getByRole('checkbox', { name: 'Anything the usual way, and how much?' }).press('Space')
    await expect(
      sheet.getByText(/Told, and in no report yet: temperature 39\.1 °C; chills yes/),
    ).toBeVisible()
    await page.keyboard.press('Tab')
    await page.keyboard.press('Escape')
    await page.keyboard.press('c')
    await expect(dialog.getByText('Stays on the sheet until somebody is reached.')).toBeVisible()
    await page.keyboard.press('Escape')
    await expect(temperature).toHaveValue('39.1')
    await expectAccessible(page)
  })

  await test.step('who leaves is asked first', async () => {
    await sheet.focus()
    await page.keyboard.press('b')
    await expect(dialog).toContainText('3 answers are not stored yet')
    await expectAccessible(page)
    await dialog.getByRole('button', { name: 'Stay' }).press('Enter')
    await page.getByRole('link', { name: 'Worklist' }).click()
    await expect(dialog).toContainText('3 answers are not stored yet')
    await page.keyboard.press('Escape')
  })

  await test.step('the way back of the browser is not asked about: who returns is told what was left', async () => {
    await expect(sheet.getByText('not recorded yet')).toBeHidden()
    await page.goBack()
    await expect(row(patientId)).toBeVisible()
    await page.goForward()
    await expect(sheet.getByText(/^3 answers from \w+ \d+ \w+, \d+:\d+, not recorded yet\.$/)).toBeVisible()
    await expectAccessible(page)
    await sheet.getByRole('button', { name: 'Clear them' }).press('Enter')
    await dialog.getByRole('button', { name: 'Keep them' }).press('Enter')
    // What is answered anew is of this call.
    await sheet.getByRole('textbox', { name: 'Temperature now?' }).fill('39.2')
    await expect(sheet.getByText(/^2 answers from /)).toBeVisible()
    await sheet.getByRole('textbox', { name: 'Temperature now?' }).fill('39.1')
  })

  await test.step('the call keeps what was asked', async () => {
    await sheet.focus()
    await page.keyboard.press('c')
    await dialog.getByLabel('Reached', { exact: true }).press('Space')
    await dialog.getByLabel('Patient', { exact: true }).press('Space')
    await dialog.getByLabel('Watch and report').press('Space')
    await expect(dialog.getByRole('region', { name: 'Asked by the call sheet' })).toContainText(
      'Temperature now? 39.1 °C',
    )
    await dialog.getByRole('button', { name: 'Record the call' }).press('Enter')
    await expect(dialog).toBeHidden()
    const calls = page.getByRole('region', { name: 'Calls', exact: true })
    await calls.getByText('3 questions asked').press('Enter')
    await expect(calls).toContainText('Anything the usual way, and how much? no answer noted')
  })

  await test.step('what was told opens as a report, and is stored once it was read', async () => {
    await expect(
      sheet.getByRole('checkbox', { name: 'Anything the usual way, and how much?' }),
    ).not.toBeChecked()
    await sheet.focus()
    await page.keyboard.press('r')
    await expect(dialog.getByLabel('Temperature')).toHaveValue('39.1')
    await expect(dialog.getByLabel('Chills')).toHaveValue('yes')
    await dialog.getByLabel('Temperature').press('Enter')
    await expect(dialog).toBeHidden()
    await expect(page.getByRole('region', { name: 'Reports' })).toContainText('39.1 °C')
    await expect(sheet.getByText('Told, and in no report yet')).toBeHidden()
  })

  await test.step('a note is signed and taken back', async () => {
    await page.keyboard.press('n')
    await page.keyboard.type('Daughter brings bags on Friday.')
    await expectAccessible(page)
    await page.keyboard.press('Control+Enter')
    const notes = page.getByRole('region', { name: 'Notes', exact: true })
    await expect(notes).toContainText('Daughter brings bags on Friday.')
    await page.getByRole('button', { name: /^Undo/ }).last().press('Enter')
    await expect(notes.locator('del')).toContainText('Daughter brings bags on Friday.')
    await expect(notes).toContainText(/Taken back .* by R\. Okafor/)
  })

  await test.step('back to the same row, on to the next, and back to that', async () => {
    await sheet.focus()
    await page.keyboard.press('b')
    await expect(page).toHaveURL(new RegExp(`/${view.replaceAll('?', '\\?')}$`))
    await expect(row(patientId)).toBeFocused()
    await page.keyboard.press('d')
    await expect(sheet).toBeVisible()
    await page.keyboard.press('x')
    await expect(page.getByRole('heading', { level: 1 })).not.toHaveText(NAME)
    await expect(page.getByText(/with you, \d+ min/)).toBeVisible()
    const next = new URL(page.url()).pathname.split('/').at(-1) ?? ''
    await page.keyboard.press('b')
    await expect(page).toHaveURL(new RegExp(`/${view.replaceAll('?', '\\?')}$`))
    await expect(row(next)).toBeFocused()
    await page.keyboard.press('z')
    await expect(page.getByText('is given back')).toBeVisible()
  })
})

test('the sheet fits beside the chart, is copied as text, and printed on one page', async ({
  page,
  context,
  server,
}) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  const { patientId } = await enrolPerson(server, 'Thea Lindqvist (invented)')
  await signIn(page, server, 'nurse')
  await phoneIn(page, patientId)
  await page.goto(`/patients/${patientId}`)
  const sheet = page.getByRole('region', { name: 'Call sheet' })
  await expect(sheet).toContainText('38.6 °C')
  const box = await sheet.boundingBox()
  // A clinic of its own has no line about the demo scenario above its pages.
  const demo = (await page.getByText('Demo scenario').boundingBox())?.height ?? 0
  expect((box?.y ?? 0) + (box?.height ?? 999) - demo).toBeLessThanOrEqual(768)

  await sheet.getByRole('button', { name: 'Copy' }).click()
  await expect(sheet.getByText('Copied.')).toBeVisible()
  const text = await page.evaluate(() => navigator.clipboard.readText())
  expect(text).toContain('Thea Lindqvist (invented) · 12 Mar 1958 · T-')
  expect(text).toContain('Decision support, not a diagnosis.')

  await page.evaluate(() => {
    window.print = () => undefined
  })
  await sheet.getByRole('button', { name: 'Print' }).click()
  await expect(page.locator('html')).toHaveAttribute('data-print', 'sheet')
  const printed = await textsOf(await page.pdf({ format: 'A4' }))
  expect(printed).toHaveLength(1)
  for (const words of [
    'Thea Lindqvist (invented)',
    '12 Mar 1958',
    'R. Okafor',
    'Temperature now?',
    'Decision support',
  ])
    expect(printed[0]?.replaceAll(/\s+/g, ' ')).toContain(words)
  expect(printed[0]).not.toContain('Net output, mL a day')
  expect(printed[0]).not.toContain('Sign out')
})

test('the clinic keeps its own questions, and goes back to the standard', async ({ page, server }) => {
  await signIn(page, server, 'charge-nurse')
  await page.goto('/settings/questions')
  const leak = page.getByRole('region', { name: 'Leak', exact: true })
  await expect(leak).toContainText('Standard text, not approved by this clinic')
  await expectAccessible(page)
  await leak.getByRole('button', { name: /^Read and keep/ }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('Question 1', { exact: true }).fill('')
  await dialog.getByRole('button', { name: /^Up.*question 2/ }).click()
  await dialog.getByLabel('Question 1', { exact: true }).fill('Is the shirt wet?')
  await dialog.getByLabel('Answer to question 1').selectOption('yes-no')
  await dialog.getByLabel('Advise').fill('One.\nTwo.\nThree.\nFour.\nFive.')
  await dialog.getByRole('button', { name: 'Keep as the clinic’s own' }).click()
  await expect(dialog).toContainText('At most 4 sentences.')
  await expectAccessible(page)
  await dialog.getByLabel('Advise').fill('A dry dressing.')
  await dialog.getByRole('button', { name: 'Keep as the clinic’s own' }).click()
  await expect(page.getByText('version 1 is in force')).toBeVisible()
  await expect(leak).toContainText('Is the shirt wet? (yes or no)')
  await leak.getByRole('button', { name: /^Back to the standard/ }).click()
  await dialog.getByRole('button', { name: 'Back to the standard' }).click()
  await expect(leak).toContainText('Standard text, not approved by this clinic')
  await leak.getByText('2 versions').click()
  await expect(leak).toContainText('back to the standard text.')
  await expect(leak).toContainText('Is the shirt wet?')
})
