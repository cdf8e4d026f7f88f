import { mkdirSync } from 'node:fs'
import { signIn } from './support/sign-in.ts'
import { test } from './support/test.ts'

test.use({ house: 'shots f', viewport: { width: 1366, height: 768 } })
for (const scheme of ['light', 'dark'] as const)
  test(`shots ${scheme}`, async ({ page, server }) => {
    mkdirSync('/tmp/shots-f', { recursive: true })
    await page.emulateMedia({ colorScheme: scheme })
    const shot = (name: string, fullPage = false) =>
      page.screenshot({ path: `/tmp/shots-f/${scheme}-${name}.png`, fullPage })
    await signIn(page, server, 'physician')
    await page.goto('/audit')
    await shot('weeks')
    await page.getByRole('link', { name: /^Read / }).click()
    await page.getByRole('heading', { name: 'Should somebody have called?' }).waitFor()
    await shot('item')
    await shot('item-full', true)
    for (let i = 0; i < 4; i++) {
      await page.keyboard.press('1')
      await page.keyboard.press('Enter')
      await page.getByText(/^Stored/).waitFor()
      await page.keyboard.press('o')
      await page.getByRole('heading', { name: 'What happened' }).waitFor()
      await shot(`happened-${i}`, true)
      await page.keyboard.press('j')
      await page.getByRole('heading', { name: 'Should somebody have called?' }).waitFor()
    }
    await page.goto('/audit/outcomes')
    await shot('outcomes')
    await shot('outcomes-full', true)
    await page.getByRole('button', { name: /^Events/ }).first().click()
    await page.getByRole('button', { name: 'Store the answer' }).waitFor()
    await shot('outcome-dialog')
  })
