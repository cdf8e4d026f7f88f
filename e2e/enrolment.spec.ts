import { expectAccessible } from './support/axe.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test.describe('the short form of enrolment', () => {
  // What the server refuses (a child, a record number that is taken) the browser notes as an error.
  test.use({ expectedErrors: [/status of 4(00|09)/] })

  test('takes a person with two drains, and gives a link that opens the check-in page', async ({
    page,
    server,
    openBrowser,
  }) => {
    await signIn(page, server, 'nurse')
    await page.getByRole('link', { name: 'Enrol a patient' }).click()
    await page.getByRole('button', { name: 'Enrol and make the link' }).click()
    await expect(page.getByLabel('Full name')).toBeFocused()
    await expect(page.getByLabel('Full name')).toHaveAccessibleDescription(/full name/i)
    await expectAccessible(page)

    await page.getByLabel('Full name').fill('Marigold Thistlewood (invented)')
    await page.getByLabel('Birth date').fill('2015-06-01')
    await page.getByLabel('Record number').fill(`E-${Date.now()}`)
    await page.getByLabel('Side').selectOption('left')
    await page.getByRole('button', { name: 'Another drain' }).click()
    const second = page.getByRole('region', { name: 'Drain 2' })
    await second.getByLabel('Kind').selectOption('collection')
    await expect(second.getByLabel('Flush, mL')).toHaveValue('10')
    await page.getByRole('button', { name: 'Enrol and make the link' }).click()
    await expect(page.getByLabel('Birth date')).toHaveAccessibleDescription(/adult/)
    await page.getByLabel('Birth date').fill('1961-06-01')
    await page.getByRole('button', { name: 'Enrol and make the link' }).dblclick()

    await expect(
      page.getByRole('heading', { name: 'Marigold Thistlewood (invented) is enrolled' }),
    ).toBeFocused()
    await expectAccessible(page)
    const link = await page.getByLabel('Check-in link').inputValue()
    const phone = await (await openBrowser()).newPage()
    await phone.goto(link)
    await expect(phone.getByRole('heading', { level: 1 })).toBeVisible()

    await page.getByRole('link', { name: 'To the patient’s page' }).click()
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Marigold Thistlewood (invented)')
    await expect(page.getByRole('region', { name: 'Timeline' })).toContainText('Left kidney')
    await expect(page.getByRole('region', { name: 'Timeline' })).toContainText('Abscess')
  })

  test('says which record number is taken', async ({ page, server }) => {
    await signIn(page, server, 'nurse')
    await page.goto('/patients/new')
    await page.getByLabel('Full name').fill('Somebody Else (invented)')
    await page.getByLabel('Birth date').fill('1961-06-01')
    await page.getByLabel('Record number').fill('LF-040137')
    await page.getByRole('button', { name: 'Enrol and make the link' }).click()
    await expect(page.getByLabel('Record number')).toHaveAccessibleDescription(/is taken/)
  })
})
