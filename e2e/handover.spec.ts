import { expectAccessible } from './support/axe.ts'
import { pagesOf } from './support/pdf.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test.use({ house: 'handover' })

test('one nurse hands the shift over to another, row by row, and both sign', async ({
  page,
  server,
  openBrowser,
}) => {
  await signIn(page, server, 'nurse')
  await page.goto('/handover')
  await expect(page.getByRole('heading', { name: 'Handover', level: 1 })).toBeVisible()
  await page.getByLabel('Note for the next shift').fill('The second floor line is down; use the mobile.')
  await page.getByRole('button', { name: 'Open the handover' }).click()
  await expect(page.getByText('stay with', { exact: false }).first()).toBeVisible()
  // Whoever gives cannot accept.
  await expect(page.getByRole('button', { name: /^Accept/ })).toHaveCount(0)

  const other = await (await openBrowser()).newPage()
  await signIn(other, server, 'charge-nurse')
  await other.goto('/handover')
  await expect(other.getByText('The second floor line is down; use the mobile.')).toBeVisible()
  await expectAccessible(other)

  // By the keyboard: from one Accept to the next by the arrows.
  const accepts = other.getByRole('button', { name: /^Accept/ })
  const before = await accepts.count()
  expect(before).toBeGreaterThan(1)
  await accepts.first().focus()
  await other.keyboard.press('ArrowDown')
  await expect(accepts.nth(1)).toBeFocused()
  await other.keyboard.press('ArrowUp')
  const name = ((await accepts.first().textContent()) ?? '').replace(/^Accept\s*/, '')
  await other.keyboard.press('Enter')
  await expect(other.getByRole('status').filter({ hasText: `You have accepted ${name}` })).toBeVisible()
  await expect(accepts).toHaveCount(before - 1)
  // The giver sees it without doing anything.
  await expect(page.getByText(/^Accepted by /)).toBeVisible()

  await other.getByRole('button', { name: 'Sign: I take this shift' }).click()
  await expect(page.getByText(/^Taken by .*: signed/)).toBeVisible()
  await page.getByRole('button', { name: 'Sign: I give this shift' }).click()
  await page.getByRole('link', { name: 'The signed page' }).click()
  await expect(page.getByRole('heading', { name: /^Handover of / })).toBeVisible()
  await expect(page.getByText(/^Stayed with /)).toBeVisible()

  const printed = await pagesOf(await page.pdf({ format: 'A4' }))
  const words = printed.map(({ text }) => text).join('\n')
  expect(words).toContain(name)
  expect(words).toContain('Decision support, not a diagnosis.')

  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('link', { name: 'PDF' }).click(),
  ])
  expect(file.suggestedFilename()).toMatch(/^handover-\d{4}-\d\d-\d\d\.pdf$/)
  const parts: Buffer[] = []
  for await (const part of await file.createReadStream()) parts.push(part)
  const pages = await pagesOf(Buffer.concat(parts))
  const text = pages.map((one) => one.text).join('\n')
  expect(text).toContain('The second floor line is down; use the mobile.')
  expect(text).toMatch(/Given by .*: signed/)
  expect(text).toMatch(/Taken by .*: signed/)
  expect(text).toContain(name)
  for (const one of pages) expect(one.text).toContain('Decision support, not a diagnosis.')

  await page.goto('/handover')
  await expect(page.getByRole('heading', { name: 'Earlier handovers' })).toBeVisible()
})

test('the day stands in numbers, drawn and as a table', async ({ page, server }) => {
  await signIn(page, server, 'charge-nurse')
  await page.getByRole('link', { name: 'Numbers' }).click()
  await expect(page.getByRole('heading', { name: /^Numbers of / })).toBeVisible()
  await expect(page.getByRole('img', { name: /by hour of today/ })).toBeVisible()
  const waiting = page.getByRole('table', { name: 'Waiting for a call now' })
  await expect(waiting.getByRole('row')).toHaveCount(6)
  await expect(page.getByRole('table', { name: 'By the hour' }).getByRole('columnheader')).toHaveCount(25)
  await expectAccessible(page)
})
