import { randomUUID } from 'node:crypto'
import { writeFileSync, mkdirSync } from 'node:fs'
import { signIn } from './support/sign-in.ts'
import { test } from './support/test.ts'
const HOUR = 3_600_000
test('look', async ({ page, server }) => {
  test.setTimeout(300_000)
  mkdirSync('/tmp/shots-b', { recursive: true })
  await signIn(page, server, 'nurse')
  const post = async (door: string, data: object) => {
    const a = await page.request.post(server.origin + door, { data, headers: { origin: server.origin, 'Idempotency-Key': randomUUID() } })
    if (!a.ok()) console.log(door, a.status(), await a.text())
    return a.ok() ? a.json() : {}
  }
  const at = (h: number) => new Date(Date.now() - h * HOUR).toISOString()
  const { patientId } = await post('/api/patients', { name: 'Odd Day (invented)', birthDate: '1958-03-12', recordNumber: `T-${randomUUID().slice(0, 8)}`, timeZone: 'Europe/Berlin', enrolledAt: at(240),
    drains: [{ label: 'left kidney', kind: 'nephrostomy', side: 'left', placedAt: at(300), bagCapacityMl: 600, plan: { logEveryHours: 12, dressingEveryHours: 48, flush: { volumeMl: 10, everyHours: 12 } } }] })
  const door = `/api/patients/${patientId}`
  const drain = (await (await page.request.get(server.origin + door)).json()).record.drains[0].id
  const r = (h: number, volumeMl: number | null, more = {}) => post(`${door}/reports`, { readings: [{ drain, at: at(h), volumeMl }], flushes: [{ drain, at: at(h - 0.1), volumeMl: h % 3 ? 10 : null, ease: 'easy' }], ...more })
  await r(160, 400); await r(150, 200); await r(140, 210); await r(128, null); await r(116, 190); await r(40, 900)
  const w = await r(35, 60); await r(35, 600, { supersedes: w.report }); await r(30, 120); await r(22, 130); await r(10, 100); await r(3, 90)
  await page.goto(`/patients/${patientId}`)
  await page.waitForTimeout(1500)
  await page.screenshot({ path: '/tmp/shots-b/page.png' })
  const steps = page.getByRole('application', { name: 'Timeline, day by day' })
  await steps.focus(); await page.keyboard.press('End'); await page.keyboard.press('ArrowLeft'); await page.keyboard.press('Enter')
  await page.waitForTimeout(800)
  await page.screenshot({ path: '/tmp/shots-b/day.png' })
  for (let i = 0; i < 4; i++) { await page.getByRole('button', { name: 'Day before' }).click(); await page.waitForTimeout(500) }
  await page.screenshot({ path: '/tmp/shots-b/day-before.png' })
  await page.emulateMedia({ colorScheme: 'dark' }); await page.screenshot({ path: '/tmp/shots-b/day-dark.png' }); await page.emulateMedia({ colorScheme: 'light' })
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: 'Export' }).click(); await page.waitForTimeout(300)
  await page.screenshot({ path: '/tmp/shots-b/export.png' })
  await page.keyboard.press('Escape')
  const get = async (id: string, name: string) => { const a = await page.request.get(`${server.origin}/api/patients/${id}/export/chart.pdf`); console.log(name, a.status()); writeFileSync(`/tmp/shots-b/${name}.pdf`, await a.body()) }
  await get(patientId, 'odd')
  const { rows } = await (await page.request.get(`${server.origin}/api/worklist`)).json()
  for (const i of [0, 3, 8]) await get(rows[i].patientId, `demo${i}`)
  for (const row of rows.slice(0, 6)) { const p = await (await page.request.get(`${server.origin}/api/patients/${row.patientId}`)).json(); const d = p.record.drains[0]; const a = await page.request.get(`${server.origin}/api/patients/${row.patientId}/course?drain=${d.id}`); console.log(d.kind, a.status()) }
})
