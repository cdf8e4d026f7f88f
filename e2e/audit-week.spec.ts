import { expectAccessible } from './support/axe.ts'
import { enrolPerson } from './support/person.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test.use({ house: 'audit week' })

test('a physician reads the week by keyboard; the nurse who called reads the verdict', async ({
  page,
  server,
  openBrowser,
}) => {
  test.setTimeout(120_000)
  await signIn(page, server, 'physician')
  await page.getByRole('link', { name: 'Audit' }).click()
  await expect(page.getByRole('heading', { name: 'The week', level: 1 })).toBeVisible()
  await expectAccessible(page)
  await page.getByRole('link', { name: /^Read / }).click()
  await expect(page.getByRole('heading', { name: /^The week of / })).toBeVisible()
  const place = page.getByText(/^Item \d+ of \d+$/)
  const count = Number((await place.textContent())?.split(' ').at(-1))
  expect(count).toBeGreaterThan(3)
  await expect(page.getByRole('heading', { name: 'Should somebody have called?' })).toBeVisible()
  await expect(page.getByText(/flag stood|signs of infection|within 1 hour, now/i)).toHaveCount(0)
  await expectAccessible(page)

  // Without a verdict nothing opens; then a verdict, what happened, and the verdict changed.
  await page.keyboard.press('o')
  await page.keyboard.press('Enter')
  await expect(page.getByText('Choose a verdict first.')).toBeVisible()
  const happened = page.getByRole('heading', { name: 'What happened' })
  await expect(happened).toHaveCount(0)
  await page.keyboard.press('3')
  await page.keyboard.press('6')
  await page.keyboard.press('Enter')
  const stored = page.getByRole('status').filter({ hasText: /^Stored / })
  await expect(stored).toContainText('not warranted')
  await page.keyboard.press('o')
  await expect(happened).toBeVisible()
  await page.keyboard.press('1')
  await page.keyboard.press('Enter')
  await expect(stored).toContainText(
    'warranted, after 1 before it, which stays on record, knowing what happened.',
  )
  await expectAccessible(page)

  // On through the items, to a flag that a call of the nurse closed and that waits for no second reading.
  const whose = page.locator('[aria-live]').filter({ hasText: '·' }).first()
  let called = ''
  for (let read = 1; read < count && (read < 3 || called === ''); read++) {
    const before = await place.textContent()
    await page.keyboard.press('j')
    await expect(place).not.toHaveText(before ?? '')
    await expect(page.getByRole('heading', { name: 'Should somebody have called?' })).toBeVisible()
    await page.keyboard.press('1')
    await page.keyboard.press('n')
    await page.keyboard.type('Well called.')
    await page.keyboard.press('Escape')
    await page.keyboard.press('Enter')
    await expect(stored).toContainText('warranted')
    await page.keyboard.press('o')
    await expect(happened).toBeVisible()
    const said = (await page.getByRole('region', { name: 'What happened' }).textContent()) ?? ''
    await expect(whose).toContainText('yours: warranted')
    const waits = /waits for another|again from/.test((await whose.textContent()) ?? '')
    if (!waits && /Closed, R\. Okafor/.test(said))
      called = ((await whose.locator('b').textContent()) ?? '').trim()
  }
  expect(called, 'a flag that a call of the nurse closed').not.toBe('')
  await page.keyboard.press('k')
  await expect(page.getByRole('heading', { name: 'Your verdict' })).toBeVisible()

  const nurse = await (await openBrowser()).newPage()
  await signIn(nurse, server, 'nurse')
  await nurse.getByRole('link', { name: 'Numbers' }).click()
  await nurse.getByRole('link', { name: 'Verdicts on my calls' }).click()
  const row = nurse.getByRole('row').filter({ hasText: called }).filter({ hasText: 'Well called.' }).first()
  await expect(row).toContainText('Warranted')
  const link = row.getByRole('link')
  await expectAccessible(nurse)
  await link.click()
  await expect(nurse.getByText('Audit: warranted.').first()).toBeAttached()
})

test('a nurse enters what became of the patients', async ({ page, server }) => {
  await signIn(page, server, 'nurse')
  await page.getByRole('link', { name: 'Outcomes' }).click()
  await expect(page.getByRole('heading', { name: 'What became of them', level: 1 })).toBeVisible()
  await expect(page.getByRole('navigation', { name: 'Audit' }).getByRole('link')).toHaveCount(1)
  await expectAccessible(page)
  const due = page.getByRole('table', { name: 'Due to be asked, the longest first' }).locator('tbody tr')
  // Of whom nothing is on record yet: only there none can be answered.
  const none = page.getByRole('button', { name: /^None/ })
  const asked = due.filter({ hasText: 'By 30 days' }).filter({ has: none }).first()
  const days = Number(/for (\d+) day/.exec((await asked.textContent()) ?? '')?.[1] ?? 0)
  const name = (await asked.getByRole('link').textContent()) ?? ''
  const says = page.getByRole('status').filter({ hasText: name })
  await asked.getByRole('button').first().focus()
  await page.keyboard.press('2')
  await expect(says).toContainText(`${name}: not known.`)
  await expect(due.filter({ hasText: 'By 30 days' }).filter({ hasText: name })).toHaveCount(0)
  await page.getByRole('button', { name: 'Change this answer' }).click()
  const dialog = page.getByRole('dialog', { name: `What became of ${name}` })
  await dialog.getByRole('button', { name: 'Store the answer' }).click()
  await expect(dialog.getByText('Choose what happened.')).toBeVisible()
  await dialog.getByLabel('What happened').selectOption('Emergency visit')
  const on = new Date(Date.now() - (days + 6) * 86_400_000).toISOString().slice(0, 10)
  await dialog.getByLabel('When').fill(`${on}T12:00`)
  await expectAccessible(page)
  await dialog.getByRole('button', { name: 'Store the answer' }).click()
  await expect(says).toContainText(`${name}: events.`)
  const events = page.getByRole('table', { name: 'Recorded last' })
  const row = events.getByRole('row').filter({ hasText: name }).first()
  await expect(row).toContainText('Emergency visit')
  await row.getByRole('button', { name: /^Withdraw/ }).click()
  await page.getByRole('dialog').getByLabel('Why').fill('it was somebody else')
  await page.getByRole('dialog').getByRole('button', { name: 'Withdraw' }).click()
  await expect(row).toContainText('withdrawn')
})

test('a death from outside ends follow-up, which the form says before; withdrawn, it brings nobody back', async ({
  page,
  server,
}) => {
  const name = 'Fenella Marshwiggle (invented)'
  const { patientId } = await enrolPerson(server, name)
  await signIn(page, server, 'nurse')
  await page.goto('/audit/outcomes')
  await page.getByLabel('Name or record number').fill('Marshwiggle')
  await page.getByRole('button', { name: /^Fenella Marshwiggle/ }).click()
  const dialog = page.getByRole('dialog')
  await dialog.getByLabel('What happened').selectOption('Admission')
  await expect(dialog.getByRole('button', { name: 'Record the event', exact: true })).toBeVisible()
  await dialog.getByLabel('What happened').selectOption('Death')
  await expect(dialog.getByText(`A death ends follow-up of ${name}.`)).toContainText(
    'To undo this takes two people',
  )
  const on = new Date(Date.now() - 5 * 86_400_000).toISOString().slice(0, 10)
  await dialog.getByLabel('When').fill(`${on}T12:00`)
  await expectAccessible(page)
  await dialog.getByRole('button', { name: 'Record the event and end follow-up' }).click()
  const says = page.getByRole('status').filter({ hasText: name })
  await expect(says).toContainText('Follow-up has ended.')

  const row = page.getByRole('table', { name: 'Recorded last' }).getByRole('row').filter({ hasText: name })
  await row.getByRole('button', { name: /^Withdraw/ }).click()
  await expect(dialog).toContainText('This brings nobody back into follow-up')
  await dialog.getByLabel('Why').fill('It was somebody else.')
  await dialog.getByRole('button', { name: 'Withdraw' }).click()
  await expect(row).toContainText('withdrawn')
  await page.goto(`/patients/${patientId}`)
  await expect(page.getByRole('region', { name: 'Follow-up has ended' })).toBeVisible()
})
