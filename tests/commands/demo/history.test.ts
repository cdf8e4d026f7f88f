import { expect, test } from 'vitest'
import { keyOf } from '../../../lib/audit/replay/follower.ts'
import { inForceOf } from '../../../lib/audit/replay/in-force.ts'
import { replayPatient } from '../../../lib/audit/replay/replay-patient.ts'
import { loadScenario } from '../../../lib/commands/demo/load.ts'
import { type DemoPatient, demoScenario } from '../../../lib/simulate/demo/scenario.ts'
import { read } from '../../../lib/store/index.ts'
import { historiesOf } from '../../../lib/store/replay-history.ts'
import { grouped } from '../../../lib/store/rows.ts'
import { databasePerTest } from '../../store/database.ts'

databasePerTest()

/** So chosen that one of them reports in the minute in which their tube is exchanged. */
const END = '2026-11-30T19:00:30.000Z'

/** Those with the shortest histories: of each course one, if it is short enough, and one who was helped weeks ago. */
function fewPatients(): DemoPatient[] {
  const all = demoScenario(END).toSorted((a, b) => a.simulated.reports.length - b.simulated.reports.length)
  const short = all.filter(({ simulated }) => simulated.reports.length < 15)
  const helped = all.find(
    ({ openFrom, simulated }) => openFrom === null && simulated.truth.course === 'slipped',
  )
  const each = [...grouped(short, ({ simulated }) => simulated.truth.course).values()]
  return [...each, [helped]].flatMap(([first]) => first ?? [])
}

test('a replay of the rule set in force gives the flags of the scenario, each moved when it was', {
  timeout: 120_000,
}, async () => {
  const patients = fewPatients()
  await loadScenario(new Date(END), () => ({ at: () => undefined, end: () => undefined }), patients)
  const { rows, clinicId, calls } = await read(async (tx) => ({
    rows: await tx.flag.findMany({ orderBy: { openedAt: 'asc' } }),
    clinicId: (await tx.clinic.findFirstOrThrow()).id,
    calls: await tx.callback.groupBy({ by: ['outcome'] }),
  }))
  expect(calls.map(({ outcome }) => outcome)).toEqual(expect.arrayContaining(['reached', 'no-answer']))
  const ids = (await read((tx) => tx.patient.findMany())).map(({ id }) => id)
  expect(ids).toHaveLength(patients.length)

  const end = Date.parse(END)
  const replayed = (await read((tx) => historiesOf(tx, clinicId, ids, END))).flatMap((history) =>
    replayPatient(history, inForceOf([], end), null, { from: 0, until: end }).inForce.map(({ flag }) => flag),
  )
  const told = (flags: readonly { [key: string]: unknown }[]) =>
    flags
      .map(({ key, state, urgency, openedAt, closedAt, endedAt, lookAgainAt }) =>
        [key, state, urgency, openedAt, closedAt, endedAt, lookAgainAt].join(' '),
      )
      .sort()
  const key = (flag: { patientId: string; code: string }, drain: string | null) =>
    `${flag.patientId} ${keyOf({ code: flag.code, drain })}`
  expect(told(replayed.map((flag) => ({ ...flag, key: key(flag, flag.drain) })))).toEqual(
    told(rows.map((flag) => ({ ...flag, key: key(flag, flag.drainId) }))),
  )
  // Among them some that no report opened: only time did.
  expect(new Set(rows.map(({ code }) => code))).toContain('log-missed')
  expect(rows.length).toBeGreaterThan(20)
})
