import fc from 'fast-check'
import { beforeEach, expect, it, vi } from 'vitest'
import { read } from '../../lib/store/index.ts'
import { checkHours, stepDue } from '../../lib/worklist/escalate.ts'
import { onCall, readWorklist, recordCallback, takeRow } from '../../lib/worklist/index.ts'
import { at, nurse, openClinics, patient } from '../store/clinic.ts'
import { databasePerTest } from '../store/database.ts'
import {
  CLOSES,
  drainOut,
  escalations,
  leak,
  MORNING,
  OPENS,
  onCallPerson,
  SECRET,
  setHours,
  tokenOf,
} from './night.ts'

databasePerTest()
beforeEach(openClinics)
beforeEach(() => {
  vi.stubEnv('AUTH_SECRET', SECRET)
  vi.stubEnv('SMTP_URL', 'smtp://mail.example')
})

const happenings = ['drain-out', 'leak', 'have-it', 'pass-on', 'no-answer', 'reached', 'take'] as const
type Happening = (typeof happenings)[number]
const REACHED = { outcome: 'reached', spokenTo: 'patient', agreed: ['emergency-department'] }

/** Something that happens; a refusal is an answer too. */
async function happen(
  what: Happening,
  { patientId, drain }: { patientId: string; drain: string },
  hour: number,
) {
  const key = `${what} ${hour}`
  if (what === 'drain-out') await drainOut(patientId, drain, hour)
  if (what === 'leak') await leak(patientId, drain, hour)
  if (what === 'take') await takeRow(nurse, patientId, at(hour)).catch(() => undefined)
  if (what === 'no-answer') await recordCallback(nurse, patientId, { outcome: 'no-answer' }, key, at(hour))
  if (what === 'reached') await recordCallback(nurse, patientId, REACHED, key, at(hour))
  if (what === 'have-it' || what === 'pass-on') {
    const link = await tokenOf('').catch(() => null)
    if (link) await onCall(link.id, { token: link.token, wish: what }, at(hour)).catch(() => undefined)
  }
}

/** Outside opening hours what cannot wait has an escalation that goes on, or that somebody has; nothing has two. */
async function holds(hour: number) {
  const isClosed = hour < OPENS || (hour >= CLOSES && hour < MORNING)
  const all = await escalations()
  const standing = all.filter(({ endedAt }) => endedAt === null)
  for (const one of standing) {
    expect((one.nextAt === null) !== (one.haveItAt === null), 'goes on, or somebody has it').toBe(true)
    expect(one.haveItAt === null).toBe(one.haveItBy === null)
  }
  expect(new Set(standing.map(({ patientId }) => patientId)).size, 'one a patient').toBe(standing.length)
  for (const one of all)
    expect(one.endedAt === null || one.lines.at(-1) === 'ended', 'ends for a reason').toBe(true)
  if (!isClosed) return expect(standing).toEqual([])
  const { rows } = await readWorklist(nurse, at(hour))
  for (const row of rows.filter(({ urgency }) => urgency === 'at-once' || urgency === 'within-1h')) {
    const flags = row.flags.filter(({ urgency, spokenAt }) => urgency !== 'within-24h' && spokenAt === null)
    if (flags.length > 0 && row.hold === null) expect(row.onCall, `someone is told at ${hour}`).not.toBeNull()
  }
}

it('at no instant outside opening hours is what cannot wait silent, whatever happens in the night', async () => {
  const step = fc.record({ after: fc.integer({ min: 1, max: 90 }), what: fc.constantFrom(...happenings) })
  await setHours()
  await onCallPerson('Abe', 1)
  await onCallPerson('Bea', 2)
  let started = 0
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 4, maxLength: 9 }), async (steps) => {
      const one = await patient()
      let hour = CLOSES - 0.5
      for (const { after, what } of steps) {
        hour += after / 60
        await happen(what, one, hour)
        await checkHours(at(hour))
        expect((await stepDue(at(hour), null)).errors).toEqual([])
        await holds(hour)
      }
      await checkHours(at(MORNING))
      started += 1
    }),
    { numRuns: 6, seed: 20261125, endOnFailure: true },
  )
  expect(started).toBe(6)
  expect(await read((tx) => tx.escalation.count())).toBeGreaterThan(0)
}, 120_000)
