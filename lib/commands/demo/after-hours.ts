import type { NewShift } from '../../domain/rota.ts'
import { DEMO_CLINIC, DEMO_HOURS, DEMO_QUIET } from '../../simulate/demo/scenario.ts'
import { saveClinic } from '../../store/clinics.ts'
import type { Tx } from '../../store/index.ts'
import { stored } from '../../store/rows.ts'
import { addShift } from '../../store/shifts.ts'

const DAY_MS = 86_400_000
const RECORDED_BY = 'demo scenario'

/** Two invented people on call for the nights to come, the second for when the first does not answer. */
const people = [
  { rank: 1, name: 'Dr. A. Ferreira (invented)', email: 'oncall-1@larkfield.example', phone: '+1 555 0171' },
  { rank: 2, name: 'Dr. K. Osei (invented)', email: 'oncall-2@larkfield.example', phone: '+1 555 0172' },
] as const

/** Gives the invented clinic its opening hours, and a rota from now on for as long as a shift may last. */
export async function openAfterHours(tx: Tx, clinicId: string, now: Date): Promise<void> {
  const { phone, afterHoursPhone } = DEMO_CLINIC
  await saveClinic(tx, clinicId, { phone, afterHoursPhone, hours: DEMO_HOURS, quiet: DEMO_QUIET })
  for (const person of people) {
    const until = stored(new Date(now.getTime() + 30 * DAY_MS))
    const shift: NewShift = { ...person, from: stored(now), until }
    await addShift(tx, shift, { clinicId, recordedAt: stored(now), recordedBy: RECORDED_BY })
  }
}
