import { expectAccessible } from './support/axe.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test('a physician reads the figures, opens one to its patients, and names what to be judged by', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'physician')
  await page.goto('/audit/figures')
  await expect(page.getByRole('heading', { name: 'Figures', level: 1 })).toBeVisible()
  await expect(page.getByText('Decision support, not a diagnosis.', { exact: false })).toBeVisible()

  // By the keyboard: open a figure, see its weeks in numbers and on the chart.
  const figure = page.getByRole('button', { name: 'Clinical flags per 1,000 catheter-days' })
  await figure.focus()
  await page.keyboard.press('Enter')
  await expect(figure).toHaveAttribute('aria-expanded', 'true')
  await expect(
    page.getByRole('table', { name: 'Clinical flags per 1,000 catheter-days, week by week' }),
  ).toBeVisible()
  await expect(page.getByText('Days of silence').first()).toBeVisible()
  await expect(page.locator('figure canvas').filter({ visible: true }).first()).toBeVisible()

  await page.getByRole('button', { name: /^The patients behind it: \d+$/ }).click()
  const patients = page.getByRole('list', { name: 'Patients behind: Clinical flags per 1,000 catheter-days' })
  await expect(patients.getByRole('link').first()).toBeVisible()
  await expectAccessible(page)

  await page.getByRole('button', { name: 'Name a figure' }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('Figure').selectOption({ label: 'Positive predictive value' })
  await dialog.getByLabel('Why this one').fill('Nurses doubt the flags.')
  await dialog.getByRole('button', { name: 'Name it' }).click()
  await expect(page.getByRole('status').filter({ hasText: 'It holds for the weeks from' })).toBeVisible()
  await expect(page.getByText(/has named: Positive predictive value/)).toBeVisible()

  const name = (await patients.getByRole('link').first().textContent()) ?? ''
  await patients.getByRole('link').first().click()
  await expect(page.getByRole('heading', { name })).toBeVisible()
})
