import { randomUUID } from 'node:crypto'
import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test.use({ house: 'audit-replay' })

/** Sends something to a door as the page's own scripts would. */
async function post<T>(page: Page, door: string, data: object): Promise<T> {
  const headers = { origin: new URL(page.url()).origin, 'Idempotency-Key': randomUUID() }
  const answer = await page.request.post(door, { data, headers })
  expect(answer.ok(), await answer.text()).toBe(true)
  return answer.json()
}

test('a draft is replayed over the demo clinic, read patient by patient, and a replay is cancelled', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'physician')
  await page.goto('/audit/rules')
  const wanted = {
    values: { declineRatio: 0.8, logGraceHours: 30 },
    reason: 'Falls were seen late (invented)',
  }
  const { draft } = await post<{ draft: string }>(page, '/api/audit/rules/drafts', wanted)
  await page.goto(`/audit/rules/${draft}`)
  await page.getByRole('button', { name: 'Run a replay' }).click()
  const dialog = page.getByRole('dialog')
  const from = await dialog.getByLabel('From', { exact: true }).inputValue()
  const until = await dialog.getByLabel('Until, that day included').inputValue()
  await dialog.getByRole('button', { name: 'Run it' }).click()

  await expect(page).toHaveURL(/\/audit\/replays\//)
  await expect(page.getByRole('progressbar')).toBeVisible()
  await expect(page.getByRole('heading', { name: 'What would have changed' })).toBeVisible({
    timeout: 60_000,
  })
  await expect(page.getByText('Calls already made changed what followed.')).toBeVisible()
  await expect(page.getByText(/^Done: \d+ patients in/)).toBeVisible()
  await expect(page.getByRole('columnheader', { name: /Later part/ })).toBeVisible()
  await expectAccessible(page)

  await page.getByRole('table').last().getByRole('link').first().click()
  await expect(page).toHaveURL(/\?patient=/)
  await expect(page.getByText('no such flag').first()).toBeVisible()
  await expect(page.getByRole('img', { name: /Both courses/ })).toBeVisible()
  await expectAccessible(page)
  await page.getByRole('link', { name: 'Back to the replay' }).click()
  await expect(page.getByRole('heading', { name: 'What would have changed' })).toBeVisible()

  const { replay } = await post<{ replay: string }>(page, '/api/audit/replays', { draft, from, until })
  await page.goto(`/audit/replays/${replay}`)
  await page.getByRole('button', { name: 'Cancel it' }).focus()
  await page.keyboard.press('Enter')
  await expect(page.getByText(/^Cancelled\./)).toBeVisible()
  await expect(page.getByRole('progressbar')).toHaveCount(0)
})
