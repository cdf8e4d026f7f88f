import { randomUUID } from 'node:crypto'
import path from 'node:path'
import type { Page } from '@playwright/test'
import Database from 'better-sqlite3'
import { checkInDoor } from './support/doors.ts'
import { enrolPerson, type Person } from './support/person.ts'
import type { Server } from './support/server.ts'
import { signIn } from './support/sign-in.ts'
import { expect, test } from './support/test.ts'

// What only time changes comes to the open worklist by itself, and costs the reading of nobody else.

test.use({ house: 'sweep' })

const HOUR_MS = 3_600_000
const MINUTE_MS = 60_000
/** From the moment at which a row is due until the sweep has brought it. */
const SWEPT_MS = 30_000

const rowOf = (page: Page, { patientId }: Person) => page.locator(`tr[data-row="${patientId}"]`)

/** Two days of 400 mL, the latest a moment ago. */
async function log(server: Server, person: Person) {
  const { send, drain } = await checkInDoor(server, person)
  const readings = [24, 0].map((ago) => ({
    drain,
    at: new Date(Date.now() - ago * HOUR_MS).toISOString(),
    volumeMl: 400,
  }))
  expect((await send({ readings }, randomUUID())).status).toBe(200)
}

/** When each patient of the house is next to be looked at, or reminded. */
function nextChecks({ folder }: Server): Map<string, number> {
  const db = new Database(path.join(folder, 'outflow.db'), { readonly: true })
  try {
    const rows = db
      .prepare('SELECT "patientId", "nextCheckAt", "nextReminderAt" FROM "PatientState"')
      .all() as { patientId: string; nextCheckAt: string | null; nextReminderAt: string | null }[]
    const ms = (instant: string | null) => (instant ? Date.parse(instant) : Number.POSITIVE_INFINITY)
    return new Map(
      rows.map(({ patientId, nextCheckAt, nextReminderAt }) => [
        patientId,
        Math.min(ms(nextCheckAt), ms(nextReminderAt)),
      ]),
    )
  } finally {
    db.close()
  }
}

type Query = { connection: string; sql: string; params: string }

const queriesSince = (server: Server, count: number): Query[] =>
  server
    .queries()
    .slice(count)
    .map((line) => JSON.parse(line))

/** The tables that hold what a patient reported and what was ordered: an assessment reads them, the worklist never. */
const READS_A_RECORD =
  /^\s*SELECT\b.*"(Report|Reading|Flush|DressingChange|Symptoms|DrainSymptoms|StaffEvent|CarePlan)"/s
/** The note of whom a nurse sees on the open worklist, which names all that stand on it. It reads nobody. */
const NOTES_WHO_WAS_SEEN = /saw on the worklist:/
/** What tells the person on call at night is no matter of the sweep; it reads flags, and nobody's record. */
const TELLS_ON_CALL = /\b(Escalation|EscalationStep|Outbox|AccessRecord)\b/

test('a missed log comes by the sweep, and nobody who was not due is read', async ({ page, server }) => {
  test.setTimeout(120_000)
  const plan = { logEveryHours: 24, dressingEveryHours: 500 }
  const placedNow = { placedAt: new Date().toISOString(), plan }
  const silent = await enrolPerson(server, 'Corin Ashdown-Pell (invented)', placedNow)
  const late = await enrolPerson(server, 'Marit Oakes-Tilden (invented)', { plan })
  const other = await enrolPerson(server, 'Rufus Senn-Whitby (invented)', {
    plan: { ...plan, logEveryHours: 240 },
  })
  await log(server, late)
  await log(server, other)

  await signIn(page, server, 'nurse')
  await page.getByRole('button', { name: /Upkeep .*reminded/ }).click()
  for (const person of [silent, late, other]) await expect(rowOf(page, person)).toHaveCount(0)
  await page.evaluate(() => Object.assign(window, { openSinceMorning: true }))

  let movedMs = 0
  /** Moves the clock, waits for the row, and looks at every query from the move until then. */
  const moveUntil = async (byMs: number, expected: Person, says: string) => {
    const checks = nextChecks(server)
    const before = server.queries().length
    movedMs += byMs
    server.moveClock(byMs)
    await expect(rowOf(page, expected)).toBeVisible({ timeout: SWEPT_MS })
    await expect(rowOf(page, expected)).toContainText(says)

    const queries = queriesSince(server, before)
    const isDue = (id: string) => (checks.get(id) ?? 0) <= Date.now() + movedMs
    const patients = [...checks.keys()]
    const named = ({ params }: Query) => patients.filter((id) => params.includes(id))
    const recordReads = queries.filter(({ sql }) => READS_A_RECORD.test(sql))
    expect(
      recordReads.filter((query) => named(query).length !== 1),
      'each reading of a record is of one patient',
    ).toEqual([])
    expect(new Set(recordReads.flatMap(named)), 'who was due was read').toContain(expected.patientId)
    expect(
      queries
        .filter(({ sql, params }) => !NOTES_WHO_WAS_SEEN.test(params) && !TELLS_ON_CALL.test(sql))
        .filter((query) => !named(query).every(isDue)),
      'queries that name a patient who was not due',
    ).toEqual([])
    expect(isDue(other.patientId), 'the other patient is not due').toBe(false)
    test.info().annotations.push({
      type: 'the sweep',
      description: `${new Set(recordReads.flatMap(named)).size} of ${patients.length} patients read`,
    })
  }

  await test.step('24 h after placement a drain that was never logged is on the worklist', async () => {
    await moveUntil(24 * HOUR_MS + MINUTE_MS, silent, 'Nothing logged since')
    await expect(rowOf(page, late)).toHaveCount(0)
  })
  await test.step('12 h after the log was due, the late one is there too', async () => {
    await moveUntil(12 * HOUR_MS, late, 'a log is ordered every 24 h, and was due by')
    await expect(rowOf(page, other)).toHaveCount(0)
  })
  expect(await page.evaluate(() => 'openSinceMorning' in window), 'not reloaded').toBe(true)
})
