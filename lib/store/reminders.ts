import { z } from 'zod'
import { QuietHours } from '../domain/clinic-hours.ts'
import { Instant, TimeZone } from '../domain/instant.ts'
import { Profile } from '../domain/profile.ts'
import { GivenReminder } from '../domain/reminder.ts'
import type { Tx } from './client.ts'
import { Bit, json, newId, type Rows, rowOf, rowsOf, sql, stored } from './rows.ts'

/** What a reminder of a patient hangs on, as it stands at this moment. */
const ReminderFacts = z.object({
  clinicId: z.string(),
  zone: TimeZone,
  profile: json(Profile).nullable(),
  followUpEnded: Bit,
  inHospital: Bit,
  quiet: json(QuietHours).nullable(),
  clinicPhone: z.string(),
  lastHeardAt: Instant.nullable(),
})
export type ReminderFacts = z.infer<typeof ReminderFacts>

export const reminderFactsOf = (tx: Tx, patientId: string): Promise<ReminderFacts | null> =>
  rowOf(
    tx,
    'patient',
    ReminderFacts,
    sql`SELECT p."id", p."clinicId", p."timeZone" AS "zone", p."profile", p."followUpEndedAt" IS NOT NULL AS "followUpEnded",
          EXISTS (SELECT 1 FROM "Admission" a WHERE a."patientId" = p."id" AND a."endedAt" IS NULL) AS "inHospital",
          c."quiet", c."phone" AS "clinicPhone", s."lastHeardAt"
        FROM "Patient" p JOIN "Clinic" c ON c."id" = p."clinicId"
        LEFT JOIN "PatientState" s ON s."patientId" = p."id"
        WHERE p."id" = ${patientId}`,
  )

/** Reminders of a patient for logs that were due since then. */
export const remindersSince = (tx: Tx, patientId: string, dueSince: string): Promise<Rows<GivenReminder>> =>
  rowsOf(
    tx,
    'reminder',
    GivenReminder,
    sql`SELECT "id", "kind", "dueAt", "recordedAt" FROM "Reminder"
        WHERE "patientId" = ${patientId} AND "kind" IN ('due', 'missed') AND "dueAt" >= ${dueSince}`,
  )

export type NewReminder = {
  clinicId: string
  patientId: string
  kind: 'due' | 'missed'
  dueAt: string
  channel: string
  letterId: string
}

/** Notes a reminder as given. The store refuses a second one of a kind for the same due log. */
export async function addReminder(tx: Tx, reminder: NewReminder, now: Date): Promise<void> {
  await tx.reminder.create({
    data: { id: newId(), ...reminder, dueAt: stored(reminder.dueAt), recordedAt: stored(now) },
  })
}

/** Whether another reminder was given after that of a letter, so that the letter is no longer worth sending. */
export async function isOvertaken(tx: Tx, patientId: string, letterId: string): Promise<boolean> {
  const own = await tx.reminder.findFirst({
    where: { patientId, letterId },
    select: { dueAt: true, recordedAt: true },
  })
  if (!own) return false
  const { rows } = await remindersSince(tx, patientId, own.dueAt)
  return rows.some(({ recordedAt }) => recordedAt > own.recordedAt)
}

/** Patients whose next reminder has come, the longest waiting first. */
export const patientsToRemind = (tx: Tx, now: Date, most: number): Promise<{ patientId: string }[]> =>
  tx.$queryRaw`SELECT "patientId" FROM "PatientState" WHERE "nextReminderAt" <= ${stored(now)}
      ORDER BY "nextReminderAt" LIMIT ${most}`

/** Whether a patient's next reminder has come: asked again under the lock. */
export async function isToBeReminded(tx: Tx, patientId: string, now: Date): Promise<boolean> {
  const state = await tx.patientState.findUnique({ where: { patientId }, select: { nextReminderAt: true } })
  return state?.nextReminderAt != null && state.nextReminderAt <= stored(now)
}

export async function setNextReminder(tx: Tx, patientId: string, at: Date | null): Promise<void> {
  const next = at ? stored(at) : null
  await tx.$executeRaw`UPDATE "PatientState" SET "nextReminderAt" = ${next}
      WHERE "patientId" = ${patientId} AND "nextReminderAt" IS NOT ${next}`
}
