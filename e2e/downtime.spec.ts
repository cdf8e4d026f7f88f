import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// The server of this file is stopped; what a page asks of it then fails, and says so on the console.
test.use({ house: 'downtime', expectedErrors: [/ERR_CONNECTION|Failed to load|ERR_FAILED|ERR_INCOMPLETE/] })

test('a workstation shows its last worklist when the server is gone, and nothing of it after signing out', async ({
  page,
  server,
}) => {
  test.setTimeout(120_000)
  await signIn(page, server, 'nurse')
  await page.goto('/')
  const kept = () =>
    page.evaluate(async () => {
      const cache = await caches.open('staff list')
      const has = (await cache.match('/downtime/list')) !== undefined
      return has && (await navigator.serviceWorker.getRegistration('/'))?.active?.state === 'activated'
    })
  await expect.poll(kept, { timeout: 30_000 }).toBe(true)
  const name = await page.locator('[data-row-link]').first().textContent()

  // Whoever signs out leaves no list behind.
  await page.getByRole('button', { name: 'Sign out' }).click()
  await expect(page).toHaveURL(/sign-in/)
  expect(
    await page.evaluate(async () => (await caches.open('staff list')).match('/downtime/list')),
  ).toBeUndefined()

  await signIn(page, server, 'nurse')
  await page.goto('/')
  await expect.poll(kept, { timeout: 30_000 }).toBe(true)
  await server.stop()
  await page.goto('/patients/anybody')
  await expect(page.getByRole('alert')).toContainText(/The server cannot be reached since \d\d:\d\d\./)
  await expect(page.getByRole('alert')).toContainText(/This list is as of \d\d:\d\d\./)
  await expect(page.getByRole('alert')).toContainText('Nothing can be recorded here: write on paper')
  await expect(page.getByRole('rowheader', { name: name ?? '' })).toBeVisible()
  await expect(page.getByText('Decision support, not a diagnosis.')).toBeVisible()

  await page.getByRole('link', { name: 'Remove this list from this workstation' }).click()
  await expect(page.getByText('The list is no longer on this workstation.')).toBeVisible()
})
