import { randomUUID } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { parse } from 'csv-parse/sync'
import { expectAccessible } from './support/axe.ts'
import { textsOf } from './support/pdf.ts'
import { enrolPerson } from './support/person.ts'
import type { Server } from './support/server.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const HOUR = 3_600_000
const DAYS_SHOWN = 14
/** Beside the strips of the chart, px. */
const [LEFT, RIGHT] = [64, 92]

type Day = { date: string; netMl: number | null }

/** An invented person with a kidney tube, emptied and flushed once a day for a week; gives the days as the clinic has them. */
async function withDays(
  page: Page,
  server: Server,
  name: string,
): Promise<{ patientId: string; days: Day[] }> {
  const { patientId } = await enrolPerson(server, name)
  const door = `${server.origin}/api/patients/${patientId}`
  const drain = (await (await page.request.get(door)).json()).record.drains[0].id
  for (let ago = 7; ago >= 0; ago--) {
    const at = new Date(Date.now() - (24 * ago + 1) * HOUR).toISOString()
    const answer = await page.request.post(`${door}/reports`, {
      headers: { origin: server.origin, 'Idempotency-Key': randomUUID() },
      data: {
        readings: [{ drain, at, volumeMl: 311 + 7 * ago }],
        flushes: [{ drain, at, volumeMl: 10, ease: 'easy' }],
      },
    })
    expect(answer.ok(), await answer.text()).toBe(true)
  }
  const { assessment } = await (await page.request.get(door)).json()
  return { patientId, days: assessment.drains[0].days }
}

const rounded = (netMl: number | null | undefined) => String(Math.round((netMl ?? 0) * 10) / 10)

test('a bar opens how it was computed, by mouse and by keyboard, and adds up', async ({ page, server }) => {
  await signIn(page, server, 'nurse')
  const { patientId, days } = await withDays(page, server, 'Cosima Wetherby (invented)')
  await page.goto(`/patients/${patientId}`)
  const canvas = page.getByRole('img', { name: /Timeline/ }).locator('canvas')
  await expect(canvas).toBeVisible()
  const width = (await canvas.boundingBox())?.width ?? 0
  const day = (width - LEFT - RIGHT) / DAYS_SHOWN
  const dialog = page.getByRole('dialog')
  // Whatever the hour, the day before yesterday is whole.
  const whole = days.at(-3)
  await canvas.click({ position: { x: LEFT + (DAYS_SHOWN - 2.5) * day, y: 150 } })
  await expect(dialog.getByRole('status')).toHaveText(
    `Net ${rounded(whole?.netMl)} mL over 24 of its 24 h: a complete day.`,
  )
  await expect(dialog).toContainText('Cosima Wetherby (invented)')
  await expect(dialog).toContainText('Decision support, not a diagnosis.')
  const sum = dialog.getByRole('region', { name: 'The sum' })
  const parts = await sum.locator('tbody tr td:last-child').allTextContents()
  const added = parts.reduce((total, text) => total + (Number(text) || 0), 0)
  expect(Math.abs(added - (whole?.netMl ?? 0))).toBeLessThan(0.2)
  await expect(sum.locator('tfoot')).toContainText(rounded(whole?.netMl))
  await expect(dialog).toContainText('flushed 10 mL (phone, entered by R. Okafor (invented); received')
  await expectAccessible(page)
  await page.keyboard.press('Escape')
  await expect(dialog).toBeHidden()

  const steps = page.getByRole('application', { name: 'Timeline, day by day' })
  await steps.focus()
  await page.keyboard.press('End')
  await page.keyboard.press('Enter')
  await expect(dialog).toContainText('still to come')
  for (let i = 0; i < 2; i++) await dialog.getByRole('button', { name: 'Day before' }).press('Enter')
  await expect(dialog.getByRole('status')).toContainText(`Net ${rounded(whole?.netMl)} mL`)
  await dialog.getByRole('button', { name: 'Close' }).press('Enter')
  await expect(dialog).toBeHidden()
  await expect(steps).toBeFocused()
})

test('the pages for the chart and the tables are taken, and hold what the screen holds', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'nurse')
  const { patientId, days } = await withDays(page, server, 'Łucja Żółć (invented)')
  await page.goto(`/patients/${patientId}`)
  await page.getByRole('button', { name: 'Export' }).click()
  const dialog = page.getByRole('dialog')
  await expectAccessible(page)
  const taken = async (name: string) => {
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      dialog.getByRole('link', { name }).click(),
    ])
    return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) }
  }

  const pdf = await taken('PDF, two pages')
  expect(pdf.name).toMatch(/^chart-\d{4}-\d\d-\d\d\.pdf$/)
  const pages = await textsOf(pdf.bytes)
  expect(pages).toHaveLength(2)
  for (const text of pages)
    for (const word of [
      'Łucja Żółć (invented)',
      'Decision support, not a diagnosis.',
      'by R. Okafor (invented), nurse',
    ])
      expect(text).toContain(word)
  expect(pages[0]).toContain('Ordered: log every 24 h')
  expect(pages[1]).toContain(String(Math.round(days.at(-3)?.netMl ?? 0)))

  const csv = await taken('Days, CSV')
  const rows = parse(csv.bytes, { bom: true, columns: true }) as Record<string, string>[]
  expect(rows.map(({ date, net_ml, name }) => [name, date, net_ml])).toEqual(
    days.map(({ date, netMl }) => ['Łucja Żółć (invented)', date, netMl === null ? '' : String(netMl)]),
  )
  const events = parse((await taken('Events, CSV')).bytes, { bom: true, columns: true }) as object[]
  expect(events.length).toBeGreaterThan(16)
})
