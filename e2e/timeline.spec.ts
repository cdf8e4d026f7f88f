import { randomUUID } from 'node:crypto'
import type { Page } from '@playwright/test'
import { expectAccessible } from './support/axe.ts'
import type { Server } from './support/server.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

const HOUR = 3_600_000
const DAY = 24 * HOUR

/** A zone in which it is afternoon now, so that what came two hours ago came today. */
function afternoonZone(now: number): string {
  const west = Math.max(-14, new Date(now).getUTCHours() - 15)
  return `Etc/GMT${west < 0 ? '-' : '+'}${Math.abs(west)}`
}

/** An invented person with so many kidney tubes, each emptied every 24 h; from 8 to 5 days ago nobody measured. */
async function enrolWithDays(page: Page, server: Server, name: string, tubes: number): Promise<string> {
  const now = Date.now()
  const at = (ms: number) => new Date(now - ms).toISOString()
  const post = async (door: string, data: object) => {
    const headers = { origin: server.origin, 'Idempotency-Key': randomUUID() }
    const answer = await page.request.post(door, { data, headers })
    expect(answer.ok(), await answer.text()).toBe(true)
    return answer.json()
  }
  const sides = ['left', 'right', 'middle']
  const { patientId } = await post('/api/patients', {
    ...{ name, birthDate: '1958-03-12', recordNumber: `T-${randomUUID().slice(0, 8)}` },
    ...{ timeZone: afternoonZone(now), enrolledAt: at(17 * DAY) },
    drains: Array.from({ length: tubes }, (_, i) => ({
      ...{ label: `${sides[i] ?? `${i + 1}th`} kidney`, kind: 'nephrostomy', placedAt: at(18 * DAY) },
      bagCapacityMl: 600,
      plan: { logEveryHours: 24, dressingEveryHours: 48, flush: { volumeMl: 10, everyHours: 24 } },
    })),
  })
  const { record } = await (await page.request.get(`/api/patients/${patientId}`)).json()
  const ids: string[] = record.drains.map(({ id }: { id: string }) => id)
  for (let ago = 16; ago >= 0; ago--) {
    const then = at(ago * DAY + 2 * HOUR)
    const unknown = ago >= 5 && ago <= 7
    await post(`/api/patients/${patientId}/reports`, {
      readings: ids.map((drain, i) => ({
        ...{ drain, at: then, volumeMl: unknown ? null : ago === 3 && i === 0 ? 600 : 400 + i },
      })),
      flushes: ids.map((drain) => ({ drain, at: then, volumeMl: 10, ease: ago === 1 ? 'stiff' : 'easy' })),
      symptoms: { at: then, temperatureC: ago === 0 ? 38.4 : 36.8, pain: ago === 0 ? 5 : 1 },
    })
  }
  return patientId
}

/** What stands on the canvas seven pixels over the ground of the first strip, in the middle of each of its 14 days. */
const alongTheGround = (page: Page) =>
  page
    .getByRole('img', { name: /Timeline/ })
    .locator('canvas')
    .evaluate((canvas: HTMLCanvasElement) => {
      const pen = canvas.getContext('2d')
      const ratio = canvas.width / canvas.clientWidth
      const [left, right, ground] = [64, 92, 237]
      const day = (canvas.clientWidth - left - right) / 14
      return Array.from({ length: 14 }, (_, i) => {
        const x = Math.round((left + (i + 0.5) * day) * ratio)
        const [r, g, b] = pen?.getImageData(x, Math.round((ground - 7) * ratio), 1, 1).data ?? []
        return [r ?? 0, g ?? 0, b ?? 0]
      })
    })

/** Whether two colours are the same, to what smoothing does to them. */
const isLike = (one: readonly number[], other: readonly number[]) =>
  one.every((channel, i) => Math.abs(channel - (other[i] ?? 0)) <= 8)

test('the timeline is looked at closer and stepped through, by mouse and by keyboard', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'nurse')
  const patientId = await enrolWithDays(page, server, 'Philippa Quarrell (invented)', 1)
  await page.goto(`/patients/${patientId}`)
  const picture = page.getByRole('img', { name: /Timeline/ }).locator('canvas')
  await expect(picture).toBeVisible()

  // Known days are bars, and a day of which nothing is known is the bare sheet.
  const bar = [0xa9, 0xc0, 0xca]
  const sheet = [0xfd, 0xfc, 0xf8]
  await expect
    .poll(
      async () =>
        (await alongTheGround(page)).map((seen) =>
          isLike(seen, bar) ? 'bar' : isLike(seen, sheet) ? '' : '?',
        )[10],
    )
    .toBe('bar')
  const seen = await alongTheGround(page)
  for (const day of [3, 4, 10, 11]) expect(isLike(seen[day] ?? [], bar), `day ${day}`).toBe(true)
  for (const day of [6, 7]) expect(isLike(seen[day] ?? [], bar), `day ${day}`).toBe(false)

  const before = await picture.screenshot()
  await picture.hover({ position: { x: 600, y: 120 } })
  await expect.poll(async () => (await picture.screenshot()).equals(before)).toBe(false)

  const place = await picture.boundingBox()
  if (!place) throw new Error('the chart has no place')
  await page.mouse.move(place.x + 400, place.y + 120)
  await page.mouse.down()
  await page.mouse.move(place.x + 600, place.y + 120, { steps: 4 })
  await page.mouse.up()
  await expect(page.getByRole('button', { name: 'one step out' })).toBeVisible()
  await page.getByRole('button', { name: 'all days' }).click()
  await expect(page.getByRole('button', { name: 'one step out' })).toBeHidden()

  const steps = page.getByRole('application', { name: 'Timeline, day by day' })
  const said = page.getByRole('region', { name: 'Timeline' }).getByRole('status').last()
  await steps.focus()
  await page.keyboard.press('End')
  await expect(said).toContainText(/net .* mL so far, \d+ of 2[345] h covered/)
  await expect(said).toContainText('38.4 °C')
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('ArrowLeft')
  await expect(said).toContainText('net at least')
  for (let day = 0; day < 3; day++) await page.keyboard.press('ArrowLeft')
  await expect(said).toContainText('not measured')
  await page.keyboard.press('+')
  await expect(page.getByRole('button', { name: 'one step out' })).toBeVisible()
  await page.keyboard.press('Escape')
  await page.keyboard.press('Home')
  await expect(page.getByRole('button', { name: 'one step out' })).toBeHidden()
  await page.getByRole('button', { name: 'slow change' }).click()
  await expect(page.getByText(/Dark line: slow-change average/)).toBeVisible()
  await page.getByRole('button', { name: 'usual course here' }).click()
  await expect(page.getByText(/middle half of this kind|takes 10 patients of a kind/)).toBeVisible()
  await expectAccessible(page)
})

test('drains are summed, the table says all, and paper has the chart as wide as the page', async ({
  page,
  server,
}) => {
  await signIn(page, server, 'nurse')
  const patientId = await enrolWithDays(page, server, 'Ottoline Brack (invented)', 2)
  await page.goto(`/patients/${patientId}`)
  await expect(page.getByRole('img', { name: /Timeline/ }).locator('canvas')).toBeVisible()
  await page.getByRole('button', { name: 'summed' }).click()
  await page.getByRole('button', { name: 'table', exact: true }).click()
  const table = page.getByRole('region', { name: 'Timeline as a table' })
  await expect(table).toContainText('Left kidney + right kidney, summed')
  await page.getByRole('button', { name: 'summed' }).click()
  await expect(table.getByRole('columnheader', { name: 'Net output, Right kidney' })).toBeVisible()
  await expect(table).toContainText('at least')
  await expect(table).toContainText('38.4 °C')
  await expectAccessible(page)

  await page.getByRole('button', { name: 'chart', exact: true }).click()
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
  await page.setViewportSize({ width: 700, height: 990 })
  const paper = page.locator('[aria-hidden] canvas').first()
  await expect(paper).toBeVisible()
  const { width } = (await paper.boundingBox()) ?? { width: 0 }
  expect(width).toBeGreaterThan(500)
  expect(width).toBeLessThanOrEqual(700)
  // In the middle of a day's bar of the first strip, three dots to the pixel: the colour that paper has, not the dark one.
  await expect
    .poll(() =>
      paper.evaluate((canvas: HTMLCanvasElement) => [
        ...(canvas.getContext('2d')?.getImageData(585, 339, 1, 1).data.slice(0, 3) ?? []),
      ]),
    )
    .toEqual([0xa9, 0xc0, 0xca])
})

test.describe('a long record', () => {
  test.use({ expectedErrors: [/ERR_FAILED/] })

  test('what came before the last days is named, and read when it is asked for', async ({ page, server }) => {
    await signIn(page, server, 'nurse')
    const headers = { origin: server.origin }
    const found = await page.request.post('/api/patients/find', {
      data: { find: 'Kamala Threadgold' },
      headers,
    })
    const [{ patientId }] = await found.json()
    const reports = page.getByRole('region', { name: 'Reports', exact: true })
    const timeline = page.getByRole('region', { name: 'Timeline', exact: true })
    // Until the sweep has looked again at somebody of whom time has changed something, the page has the whole at once.
    await expect(async () => {
      await page.goto(`/patients/${patientId}`)
      await expect(reports).toContainText(/\d+ earlier reports are not listed here yet/, { timeout: 2000 })
    }).toPass()
    await expect(timeline.locator('canvas').first()).toBeVisible()

    await page.route('**/api/patients/*?reach=whole', (route) => route.abort())
    await timeline.getByRole('button', { name: '90', exact: true }).click()
    await expect(timeline).toContainText(/Shown from .*; the days since .* are being read/)
    await expect(timeline.getByRole('button', { name: 'Try again' })).toBeVisible({ timeout: 30_000 })
    await expect(timeline).toContainText('could not be read')
    await expect(reports).toContainText('They could not be read.')
    await page.unroute('**/api/patients/*?reach=whole')
    await timeline.getByRole('button', { name: 'Try again' }).click()
    await expect(timeline).not.toContainText('Shown from')
    await expect(reports).not.toContainText('not listed here yet')
    await reports.getByRole('button', { name: /Show all \d+/ }).click()
    expect(await reports.getByRole('article').count()).toBeGreaterThan(60)
    await expectAccessible(page)
  })
})
