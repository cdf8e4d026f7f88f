import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { beforeEach, expect, it } from 'vitest'
import { receiveReport } from '../../../lib/intake/index.ts'
import { closeStore, read } from '../../../lib/store/index.ts'
import { CLINIC, openClinics, patient, wellReport } from '../clinic.ts'
import { databasePerTest } from '../database.ts'

const database = databasePerTest()
beforeEach(openClinics)

const root = fileURLToPath(new URL('../../..', import.meta.url))
const program = fileURLToPath(new URL('./reporter.ts', import.meta.url))
const ENOUGH = 12

/** Lets a process report until it has been answered a dozen times, and kills it in the middle of the next. */
async function killWhileReporting(
  patientId: string,
  drain: string,
  from: number,
): Promise<[key: string, receipt: string][]> {
  const child = spawn(process.execPath, ['--import', 'tsx', program, patientId, drain, String(from)], {
    cwd: root,
    env: { ...process.env, DATABASE_URL: `file:${database.file}` },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  let printed = ''
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    printed += text
    if (printed.split('\n').length > ENOUGH) child.kill('SIGKILL')
  })
  await once(child, 'close')
  const whole = printed.slice(0, printed.lastIndexOf('\n')).split('\n')
  return whole.map((line) => line.split(' ') as [string, string])
}

it('a process killed in the middle of its work loses nothing that it acknowledged, and leaves nothing half done', async () => {
  const { patientId, drain } = await patient()
  await closeStore()
  const acknowledged = [
    ...(await killWhileReporting(patientId, drain, 0)),
    ...(await killWhileReporting(patientId, drain, 1000)),
  ]
  expect(acknowledged.length).toBeGreaterThanOrEqual(2 * ENOUGH)

  const reports = await read((tx) =>
    tx.report.findMany({
      include: { readings: true, symptoms: { include: { drains: true } }, dressings: true },
    }),
  )
  const codes = new Map(reports.map((report) => [report.key, report.receiptCode]))
  for (const [key, receipt] of acknowledged) expect(codes.get(key)).toBe(receipt)
  for (const { readings, symptoms, dressings } of reports)
    expect([readings.length, symptoms?.drains.length, dressings.length]).toEqual([1, 1, 1])
  const latest = reports
    .map(({ receivedAt }) => receivedAt)
    .sort()
    .at(-1)
  expect(await read((tx) => tx.patientState.findFirst())).toMatchObject({ lastHeardAt: latest })
  expect(await read((tx) => tx.accessRecord.count({ where: { action: 'report' } }))).toBe(reports.length)
  const [check] = await read((tx) => tx.$queryRaw<{ integrity_check: string }[]>`PRAGMA integrity_check`)
  expect(check?.integrity_check).toBe('ok')

  const [key = '', receipt] = acknowledged[0] ?? []
  const again = await receiveReport({
    clinicId: CLINIC,
    patientId,
    door: 'system',
    source: 'crash',
    by: null,
    key,
    body: wellReport(drain, Number(key.slice(4))),
  })
  expect(again.receipt).toBe(receipt)
}, 60_000)
