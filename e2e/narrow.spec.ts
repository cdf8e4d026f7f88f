import type { Page } from '@playwright/test'
import { pageActions } from '../tests/routes/walk.ts'
import { expectReadable } from './support/axe.ts'
import { askFrom } from './support/doors.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

test.use({ house: 'narrow', viewport: { width: 320, height: 640 }, colorScheme: 'dark' })

/** A handover that both have signed. */
async function signedHandover(giver: Page, taker: Page): Promise<string> {
  const { handover } = await askFrom<{ handover: string }>(giver, 'POST', '/api/handovers', { note: '' })
  for (const page of [giver, taker])
    await askFrom(page, 'POST', `/api/handovers/${handover}`, { step: 'sign' })
  return handover
}

/** A draft, and a replay of it over the last days. */
async function replayedDraft(page: Page): Promise<{ draft: string; replay: string }> {
  const { draft } = await askFrom<{ draft: string }>(page, 'POST', '/api/audit/rules/drafts', {
    values: { declineRatio: 0.8 },
    reason: 'Falls were seen late (invented)',
  })
  const day = (back: number) => new Date(Date.now() - back * 86_400_000).toISOString().slice(0, 10)
  const wanted = { draft, from: day(6), until: day(2) }
  const { replay } = await askFrom<{ replay: string }>(page, 'POST', '/api/audit/replays', wanted)
  const state = () =>
    askFrom<{ state: string }>(page, 'GET', `/api/audit/replays/${replay}`).then((one) => one.state)
  await expect.poll(state, { timeout: 30_000 }).toBe('done')
  return { draft, replay }
}

test('every page for staff holds at 320 px and in the dark', async ({ page, server, openBrowser }) => {
  test.setTimeout(120_000)
  await signIn(page, server, 'physician')
  const other = await (await openBrowser()).newPage()
  await signIn(other, server, 'nurse')
  const row = page.locator('tr[data-row]').first()
  const patient = (await row.getAttribute('data-row')) ?? ''
  const { weeks } = await askFrom<{ weeks: { week: string }[] }>(page, 'GET', '/api/audit/weeks')
  const { draft, replay } = await replayedDraft(page)
  const examples: Record<string, string> = {
    '/patients/[id]': patient,
    '/handover/[id]': await signedHandover(page, other),
    '/audit/week/[week]': weeks[1]?.week ?? '',
    '/audit/replays/[id]': replay,
    '/audit/rules/[draft]': draft,
  }
  const addressOf = (pattern: string) => {
    const [stem = '', id = ''] = Object.entries(examples).find(([of]) => pattern.startsWith(of)) ?? []
    return stem === '' ? pattern : pattern.replace(/\[[^\]]+\]/, id)
  }
  for (const pattern of Object.keys(pageActions))
    await test.step(pattern, async () => {
      const address = addressOf(pattern)
      await page.goto(address)
      await expect(page).toHaveURL(new RegExp(`${address}$`))
      await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible()
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('main details')) details.setAttribute('open', '')
      })
      const width = await page.evaluate(() => document.documentElement.scrollWidth)
      expect.soft(width, `the width of ${pattern}`).toBe(320)
      await expectReadable(page)
    })
})
