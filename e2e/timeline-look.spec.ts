import { randomUUID } from 'node:crypto'
import { signIn } from './support/sign-in.ts'
import { test } from './support/test.ts'
const HOUR = 3_600_000
const DAY = 24 * HOUR
test('look', async ({ page, server }) => {
  test.setTimeout(300_000)
  await signIn(page, server, 'charge-nurse')
  const now = Date.now()
  const at = (ms: number) => new Date(now - ms).toISOString()
  const post = async (door: string, data: object) => {
    const answer = await page.request.post(door, { data, headers: { origin: server.origin, 'Idempotency-Key': randomUUID() } })
    if (!answer.ok()) console.log(door, answer.status(), await answer.text())
    return answer.ok() ? answer.json() : {}
  }
  const make = async (name: string, kinds: string[], days: number) => {
    const { patientId } = await post('/api/patients', {
      name, birthDate: '1958-03-12', recordNumber: `T-${randomUUID().slice(0, 8)}`, timeZone: 'America/Denver', enrolledAt: at(days * DAY),
      drains: kinds.map((kind, i) => ({ label: `${['left', 'right', 'upper', 'lower', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'][i]} ${kind === 'collection' ? 'abscess' : 'kidney'}`, kind, placedAt: at((days + 0.2) * DAY), bagCapacityMl: 600, plan: { logEveryHours: 24, dressingEveryHours: 48, flush: { volumeMl: 10, everyHours: 24 } } })),
    })
    const { record } = await (await page.request.get(`/api/patients/${patientId}`)).json()
    const ids = record.drains.map((d: any) => d.id)
    for (let ago = days - 1; ago >= 0; ago--) {
      const then = at(ago * DAY + 2 * HOUR)
      const unknown = ago >= 5 && ago <= 7
      await post(`/api/patients/${patientId}/reports`, {
        readings: ids.map((drain: string, i: number) => ({ drain, at: then, volumeMl: unknown ? null : kinds[i] === 'collection' ? Math.round(20 + 200 * Math.exp(-(days - ago) / 6)) : ago === 3 && i === 0 ? 600 : ago < 3 ? 240 : 400 + ((ago * 37) % 50), appearance: ago === 1 ? 'pink' : 'straw' })),
        flushes: ids.map((drain: string) => ({ drain, at: then, volumeMl: 10, ease: ago === 1 ? 'stiff' : 'easy' })),
        dressings: ago % 2 ? ids.map((drain: string) => ({ drain, at: then, changed: true, found: ago === 3 ? 'damp' : 'clean', skin: 'intact' })) : [],
        symptoms: { at: then, temperatureC: ago === 0 ? 38.4 : 36.8, pain: ago === 0 ? 5 : 1, drains: ids.map((drain: string) => ({ drain, position: 'in-place', leak: ago === 2 })) },
      })
    }
    await post(`/api/patients/${patientId}/staff-events`, { drain: ids[0], type: 'position-checked', at: at(9 * DAY) })
    return patientId
  }
  const shot = (name: string) => page.screenshot({ path: `/tmp/shots-a/${name}.png` })
  const one = await make('Philippa One (invented)', ['nephrostomy'], 24)
  const three = await make('Ottoline Three (invented)', ['nephrostomy', 'nephrostomy', 'collection'], 20)
  const ten = await make('Tenny Ten (invented)', Array.from({ length: 10 }, () => 'nephrostomy'), 6)
  for (const [name, id] of [['one', one], ['three', three], ['ten', ten]] as const) {
    await page.goto(`/patients/${id}`)
    await page.getByRole('img', { name: /Timeline/ }).locator('canvas').waitFor()
    await page.waitForTimeout(600)
    await shot(`s-${name}-light`)
    if (name === 'one') {
      await page.getByRole('img', { name: /Timeline/ }).locator('canvas').hover({ position: { x: 690, y: 120 } })
      await page.waitForTimeout(300)
      await shot('s-one-tip')
      await page.getByRole('button', { name: '30', exact: true }).click()
      await page.getByRole('button', { name: 'slow change' }).click()
      await page.waitForTimeout(600)
      await shot('s-one-slow')
      await page.getByRole('application').focus()
      await page.keyboard.press('End')
      await page.keyboard.press('ArrowLeft')
      await page.waitForTimeout(300)
      await shot('s-one-step')
      await page.keyboard.press('+')
      await page.waitForTimeout(300)
      await shot('s-one-zoom')
    }
    if (name === 'three') {
      await page.getByRole('button', { name: 'summed' }).click()
      await page.waitForTimeout(300)
      await shot('s-three-sum')
      await page.getByRole('button', { name: 'table', exact: true }).click()
      await shot('s-three-table')
      await page.getByRole('button', { name: 'chart', exact: true }).click()
    }
    await page.emulateMedia({ colorScheme: 'dark' })
    await page.waitForTimeout(500)
    await shot(`s-${name}-dark`)
    await page.pdf({ path: `/tmp/shots-a/${name}.pdf`, format: 'A4', printBackground: true })
    await page.emulateMedia({ colorScheme: 'light' })
  }
  await page.goto('/')
  await page.locator('[data-row-link]').first().click()
  await page.getByRole('img', { name: /Timeline/ }).locator('canvas').waitFor()
  await page.waitForTimeout(600)
  await shot('s-demo')
  await page.getByRole('button', { name: 'since placement' }).click()
  await page.waitForTimeout(600)
  await shot('s-demo-all')
})
