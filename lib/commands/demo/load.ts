import { randomUUID } from 'node:crypto'
import { createStaff } from '../../access/index.ts'
import { namePrimary } from '../../audit/figures/index.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { DEMO_CLINIC, DEMO_QUIET, type DemoPatient, demoScenario } from '../../simulate/demo/scenario.ts'
import { placeInTime } from '../../simulate/place-in-time.ts'
import { writeAlone } from '../../store/alone.ts'
import { addClinic } from '../../store/clinics.ts'
import { write } from '../../store/index.ts'
import { computeKindCourses } from '../../worklist/kind-course.ts'
import { clinicClock } from '../evaluate/nurse.ts'
import type { Progress } from '../evaluate/progress.ts'
import { openAfterHours } from './after-hours.ts'
import { History, type Staff } from './history.ts'
import { newStaff, SIGN_INS } from './sign-ins.ts'

const DAY_MS = 86_400_000
/** So many things are done in one transaction: each commit waits for the disk. */
const TOGETHER = 100

/** What the scenario leaves behind for whoever starts the server. */
export type Loaded = { readonly patientLink: string; readonly endsOn: string }

/**
 * Loads the scenario as if it had been lived: every report through intake, every call and event through the
 * worklist, each with the time at which it happened, in the order of time.
 */
export async function loadScenario(
  endsAt: Date,
  progressOf: (total: number) => Progress,
  patients: readonly DemoPatient[] = demoScenario(endsAt.toISOString()),
): Promise<Loaded> {
  const startMs = Math.min(...patients.map(({ simulated }) => Date.parse(simulated.enrolment.enrolledAt)))
  const clinicId = randomUUID()
  const before = new Date(startMs - DAY_MS)
  const clinic = { id: clinicId, ...DEMO_CLINIC, quiet: DEMO_QUIET, demo: true }
  await write((tx) => addClinic(tx, clinic, before))
  const staff = await hire(clinicId, before)
  const named = { figure: 'time-to-reached', why: 'A call is what we promise.' }
  await namePrimary(staff.physician, named, randomUUID(), before)
  const days = Math.ceil((endsAt.getTime() - startMs) / DAY_MS)
  const clock = clinicClock(
    placeInTime(new Date(startMs).toISOString(), DEMO_CLINIC.timeZone),
    startMs,
    days + 3,
  )
  const history = new History(staff, clock, endsAt, patients)
  const progress = progressOf(history.total)
  for (let goesOn = true; goesOn; ) {
    goesOn = await writeAlone(async (tx) => {
      for (let i = 0; i < TOGETHER; i++) if (!(await history.next(tx))) return false
      return true
    })
    progress.at(Math.min(history.done, history.total))
  }
  await history.finish()
  // Only now: of the nights that are lived through in a minute nobody on call is to be told.
  await write((tx) => openAfterHours(tx, clinicId, endsAt))
  await computeKindCourses(clinicId, endsAt)
  progress.end()
  return { patientLink: await history.link(), endsOn: localDate(endsAt) }
}

async function hire(clinicId: string, at: Date): Promise<Staff> {
  const entries: [string, StaffMember][] = []
  for (const [name, signIn] of Object.entries(SIGN_INS))
    entries.push([name, await createStaff(newStaff(clinicId, signIn), 'demo scenario', at)])
  return Object.fromEntries(entries) as Staff
}

/** By the machine's own calendar, as the start compares it. */
const localDate = (at: Date) => {
  const two = (n: number) => String(n).padStart(2, '0')
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`
}
