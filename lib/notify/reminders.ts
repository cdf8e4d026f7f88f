import { type DueLog, dueLogs, type LogLimits, lastReceipt, usualLogLimits } from '../domain/due-logs.ts'
import { usualQuietHours } from '../domain/quiet-hours.ts'
import { planReminders, type ReminderPlan } from '../domain/reminder.ts'
import { RuleSet } from '../domain/ruleset.ts'
import { isAdmitted } from '../store/admissions.ts'
import { clinicById } from '../store/clinics.ts'
import type { Tx } from '../store/index.ts'
import { addLetter } from '../store/outbox.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { addReminder, isToBeReminded, remindersSince, setNextReminder } from '../store/reminders.ts'
import { stored } from '../store/rows.ts'
import { ruleSetBodyAt } from '../store/rule-sets.ts'

const DAY_MS = 86_400_000
/** Longest time between a due log and the reminder after its miss: the highest grace that a rule set may have, and a day. */
const LOOK_BACK_MS = 5 * DAY_MS

/**
 * Notes when a patient's next reminder may be, in the transaction that has just assessed them: whatever changes
 * a due log goes through there. Give it the record as it was composed then.
 */
export async function planReminder(tx: Tx, composed: Composed, now: Date): Promise<void> {
  const { due, nextMs } = await planOf(tx, composed, now)
  await setNextReminder(tx, composed.patient.id, due ? now : nextMs === null ? null : new Date(nextMs))
}

/**
 * Gives the reminder that is due to a patient, if one is: the note that it was given and the letter are written
 * together, under the lock and on what is true now. Says whether one was.
 */
export async function remind(tx: Tx, patientId: string, now: Date): Promise<boolean> {
  if (!(await isToBeReminded(tx, patientId, now))) return false
  const composed = await composeRecord(tx, patientId, now)
  if (!composed) throw new Error(`reminders: there is no patient ${patientId}`)
  const { patient } = composed
  const { due } = await planOf(tx, composed, now)
  const channel = patient.profile?.reminders.channel ?? 'none'
  if (due && channel !== 'none') {
    const { clinicId } = patient
    const dueAt = stored(new Date(due.dueMs))
    const body = { channel, until: stored(new Date(due.untilMs)) }
    const letterId = await addLetter(tx, { clinicId, patientId, kind: letterKinds[channel], body }, now)
    await addReminder(tx, { clinicId, patientId, kind: due.kind, dueAt, channel, letterId }, now)
  }
  await planReminder(tx, composed, now)
  return due !== null
}

/** A kind of letter goes one way: by mail, or to the clinic's own gateway for text messages. */
const letterKinds = { email: 'reminder', gateway: 'reminder-text' } as const

const NOTHING: ReminderPlan = { due: null, nextMs: null }

async function planOf(tx: Tx, { patient, record }: Composed, now: Date): Promise<ReminderPlan> {
  const reminders = patient.profile?.reminders
  if (!reminders || reminders.channel === 'none' || patient.followUpEndedAt !== null) return NOTHING
  if (await isAdmitted(tx, patient.id)) return NOTHING
  const nowMs = now.getTime()
  const logs = dueLogs(record, await logLimitsAt(tx, patient.clinicId, now), nowMs)
  if (logs.length === 0) return NOTHING
  const clinic = await clinicById(tx, patient.clinicId)
  return planReminders({
    reminders,
    followUpEnded: false,
    zone: patient.timeZone,
    quiet: clinic?.quiet ?? usualQuietHours,
    logs,
    heardMs: lastReceipt(record.reports, nowMs),
    given: (await remindersSince(tx, patient.id, earliest(logs))).rows,
    nowMs,
  })
}

const earliest = (logs: readonly DueLog[]) =>
  stored(new Date(Math.min(...logs.map(({ dueMs }) => dueMs)) - LOOK_BACK_MS))

/** When a missed log troubles a nurse: by the clinic's own rule set, or the one that ships. */
async function logLimitsAt(tx: Tx, clinicId: string, now: Date): Promise<LogLimits> {
  const body = await ruleSetBodyAt(tx, clinicId, stored(now))
  if (body === null) return usualLogLimits
  const { thresholds } = RuleSet.parse(JSON.parse(body))
  return {
    graceHours: thresholds.logGraceHours?.value ?? usualLogLimits.graceHours,
    onlyKidneyGraceHours: thresholds.logOnlyKidneyGraceHours?.value ?? usualLogLimits.onlyKidneyGraceHours,
    neverHours: thresholds.logNeverHours?.value ?? usualLogLimits.neverHours,
  }
}
