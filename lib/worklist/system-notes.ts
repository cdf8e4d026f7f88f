import { cellOf } from '../domain/after-hours.ts'
import { urgencyLabels } from '../domain/labels.ts'
import { when } from '../domain/local-time.ts'
import { closedBetween, isOpen, type Stretch } from '../domain/opening.ts'
import { rotaGaps, type Shift } from '../domain/rota.ts'
import { transportsSetUp } from '../notify/set-up.ts'
import { type AfterHoursClinic, afterHoursClinic } from '../store/after-hours.ts'
import type { Tx } from '../store/index.ts'
import { stored } from '../store/rows.ts'
import { shiftsFrom } from '../store/shifts.ts'
import { downtimeNotes } from './downtime-notes.ts'
import type { Standing } from './on-call-rows.ts'
import { troublesNow } from './troubles.ts'

const DAY_MS = 86_400_000
const PRESSING = ['at-once', 'within-1h'] as const

/**
 * What keeps a clinic from being told of what cannot wait, one sentence each, for the head of the worklist: what
 * has stopped, what nobody was reached about, and what would reach nobody tonight.
 */
export async function systemNotes(
  tx: Tx,
  clinicId: string,
  now: Date,
  standing: readonly Standing[],
): Promise<string[]> {
  const stopped = (await troublesNow(tx, now)).map(({ says }) => says)
  const unreached = standing
    .filter(({ escalation, state }) => escalation.patientId !== null && state.state === 'nobody')
    .map(
      ({ escalation: { about } }) =>
        `Nobody could be told after hours of: ${about}. The row stands here; call.`,
    )
  const { timeZone = 'UTC' } = (await afterHoursClinic(tx, clinicId)) ?? {}
  return [
    ...stopped,
    ...new Set(unreached),
    ...(await tonightNotes(tx, clinicId, now)),
    ...downtimeNotes(clinicId, timeZone),
  ]
}

/** What would keep the clinic from being told tonight: its hours, its table, its ways out, its rota. */
export async function tonightNotes(tx: Tx, clinicId: string, now: Date): Promise<string[]> {
  const clinic = await afterHoursClinic(tx, clinicId)
  if (!clinic) return []
  if (clinic.hours === null)
    return ['Opening hours are not set: nobody is called after hours. Set them under Settings.']
  const { rows } = await shiftsFrom(tx, clinicId, stored(now))
  return [...untold(clinic), ...ways(), ...gapNotes(clinic, rows, now)]
}

const untold = ({ table }: AfterHoursClinic) =>
  PRESSING.filter((urgency) => cellOf(table, urgency, false).tell === 'nobody').map(
    (urgency) =>
      `By this clinic’s own table nobody is told after hours of what is ‘${urgencyLabels[urgency]}’.`,
  )

function ways(): string[] {
  const { mail, gateway } = transportsSetUp()
  if (mail === 'smtp') return []
  return gateway === 'none'
    ? ['No mail server and no gateway is set up: nobody can be told after hours; letters stay in a folder.']
    : ['No mail server is set up: after hours only those with a phone number on the rota are told.']
}

/** The first hole of the rota in tonight's closed hours. */
function gapNotes({ hours, timeZone }: AfterHoursClinic, shifts: readonly Shift[], now: Date): string[] {
  if (hours === null) return []
  const tonight = nightOf(closedBetween(hours, timeZone, now.getTime(), now.getTime() + 4 * DAY_MS))
  if (!tonight) return []
  const [gap] = rotaGaps(shifts, hours, timeZone, tonight.from, tonight.until)
  if (!gap) return []
  const at = (ms: number) => when(stored(new Date(ms)), now.getTime(), timeZone)
  const isNow = gap.from === now.getTime() && !isOpen(hours, timeZone, now.getTime())
  return [
    `Nobody is on call ${isNow ? 'now' : `from ${at(gap.from)}`}, until ${at(gap.until)}. Fill the rota under Settings.`,
  ]
}

/** The closed stretch that is on or comes next. */
const nightOf = ([first]: readonly Stretch[]): Stretch | undefined => first
