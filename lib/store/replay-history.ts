import { z } from 'zod'
import { AttemptOutcome } from '../domain/callback.ts'
import { Instant, LocalDate, TimeZone } from '../domain/instant.ts'
import { type Report, Usual } from '../domain/record.ts'
import { FindingCode, Nature, Urgency } from '../domain/words.ts'
import { PlanVersion } from './care-plans.ts'
import type { Tx } from './client.ts'
import { StoredDrain } from './drains.ts'
import { FollowUpStep } from './follow-up.ts'
import { type ByPatient, rowsByPatient } from './replay-rows.ts'
import {
  StoredDrainSymptoms,
  StoredDressing,
  StoredFlush,
  StoredReading,
  StoredSymptoms,
} from './report-parts.ts'
import { grouped, json, rowsOf, sql, type Unreadable } from './rows.ts'
import { EventRow } from './staff-events.ts'
import { VisitStep } from './visits.ts'

const Details = z.object({
  recordedAt: Instant,
  body: json(z.object({ timeZone: TimeZone, usual: Usual.nullable() })),
})
const KnownDrain = StoredDrain.extend({ recordedAt: Instant })
const ReportHead = z.object({
  id: z.string(),
  receivedAt: Instant,
  supersedesId: z.string().nullable(),
  movedAt: Instant.nullable(),
})
/** Nothing refers to these rows. */
const KnownReading = StoredReading.omit({ id: true })
const KnownFlush = StoredFlush.omit({ id: true })
const KnownDressing = StoredDressing.omit({ id: true })
const KnownDrainSymptoms = StoredDrainSymptoms.omit({ id: true })
const KnownStep = VisitStep.omit({ drainId: true, kind: true })
const Visit = z.object({ id: z.string(), drainId: z.string(), kind: VisitStep.shape.kind })
const Call = z.object({
  id: z.string(),
  at: Instant,
  recordedAt: Instant,
  recordedBy: z.string(),
  outcome: AttemptOutcome,
  closes: json(z.array(z.string())),
  lookAgainAt: Instant.nullable(),
  corrects: z.string().nullable(),
  undoneAt: Instant.nullable(),
})
const Stay = z.object({ recordedAt: Instant, endedAt: Instant.nullable() })
const Opened = z.object({
  id: z.string(),
  code: FindingCode,
  drainId: z.string().nullable(),
  nature: Nature,
  urgency: Urgency.exclude(['none']),
  openedAt: Instant,
})

export type KnownReport = Report & { movedAt: string | null }
export type HistoryCall = z.infer<typeof Call>
export type HistoryStay = z.infer<typeof Stay>
/** A flag that happened. */
export type HistoryFlag = z.infer<typeof Opened>

/** All that is on record of one patient, with when each piece became known: nothing of it is composed for an instant yet. */
export type PatientHistory = {
  patientId: string
  enrolledAt: string
  recordedAt: string
  /** How the details that weigh on findings stood, the earliest first. */
  details: { recordedAt: string; body: { timeZone: string; usual: Usual | null } }[]
  drains: z.infer<typeof KnownDrain>[]
  /** By drain, valid from, version. */
  plans: PlanVersion[]
  /** In the order of receipt. */
  reports: KnownReport[]
  /** In the order of recording, as are all below. */
  events: EventRow[]
  visits: VisitStep[]
  followUp: FollowUpStep[]
  calls: HistoryCall[]
  stays: HistoryStay[]
  flags: HistoryFlag[]
  unreadable: Unreadable[]
}

const keys = (shape: z.ZodObject, ...more: string[]) => [...Object.keys(shape.shape), ...more]
/** The histories of some patients of a clinic, as far as they were known by an instant. Give a few hundred at the most. */
export async function historiesOf(
  tx: Tx,
  clinicId: string,
  patientIds: readonly string[],
  until: string,
): Promise<PatientHistory[]> {
  const ids = JSON.stringify(patientIds)
  const unreadable: Unreadable[] = []
  const recorded = { knownAt: 'recordedAt', order: ['recordedAt', 'rowid'] }
  const parts = { knownAt: 'recordedAt', order: ['recordedAt', 'ordinal'] }
  const patients = await rowsOf(
    tx,
    'patient',
    z.object({ id: z.string(), enrolledAt: Instant, recordedAt: Instant }),
    sql`SELECT "id", "enrolledAt", "recordedAt" FROM "Patient"
        WHERE "clinicId" = ${clinicId} AND "id" IN (SELECT value FROM json_each(${ids})) ORDER BY "id"`,
  )
  unreadable.push(...patients.unreadable)
  const all = <T>(wanted: Parameters<typeof rowsByPatient<T>>[3]) =>
    rowsByPatient(tx, ids, until, wanted, unreadable)

  const details = await all({
    ...{ what: 'version of details', shape: Details, table: 'PatientVersion' },
    ...{ columns: ['id', 'recordedAt', 'body'], knownAt: 'recordedAt', order: ['version'] },
  })
  const drains = await all({
    ...{ what: 'drain', shape: KnownDrain, table: 'Drain', columns: keys(KnownDrain) },
    ...{ knownAt: 'recordedAt', order: ['ordinal', 'id'] },
  })
  const plans = await all({
    ...{ what: 'care plan', shape: PlanVersion, table: 'CarePlan', columns: keys(PlanVersion, 'id') },
    ...{ knownAt: 'recordedAt', order: ['drainId', 'validFrom', 'version'] },
  })
  const heads = await all({
    ...{ what: 'report', shape: ReportHead, table: 'Report', columns: keys(ReportHead) },
    ...{ knownAt: 'receivedAt', order: ['receivedAt', 'id'] },
  })
  const readings = await all({
    ...{ what: 'reading', shape: KnownReading, table: 'Reading', ...parts },
    columns: keys(KnownReading),
  })
  const flushes = await all({
    ...{ what: 'flush', shape: KnownFlush, table: 'Flush', ...parts },
    columns: keys(KnownFlush),
  })
  const dressings = await all({
    ...{ what: 'dressing change', shape: KnownDressing, table: 'DressingChange', ...parts },
    columns: keys(KnownDressing),
  })
  const symptoms = await all({
    ...{ what: 'symptoms', shape: StoredSymptoms, table: 'Symptoms', columns: keys(StoredSymptoms) },
    ...{ knownAt: 'recordedAt', order: ['recordedAt'] },
  })
  const drainSymptoms = await all({
    ...{ what: 'symptoms of a drain', shape: KnownDrainSymptoms, table: 'DrainSymptoms', ...parts },
    columns: keys(KnownDrainSymptoms),
  })
  const events = await all({
    ...{ what: 'staff event', shape: EventRow, table: 'StaffEvent', columns: keys(EventRow) },
    ...{ knownAt: 'recordedAt', order: ['recordedAt', 'id'] },
  })
  const visits = await all({ what: 'visit', shape: Visit, table: 'Visit', columns: keys(Visit), ...recorded })
  const steps = await all({
    ...{ what: 'visit', shape: KnownStep, table: 'VisitStep', columns: keys(KnownStep, 'id'), ...recorded },
  })
  const followUp = await all({
    ...{ what: 'follow-up step', shape: FollowUpStep, table: 'FollowUpStep', ...recorded },
    columns: keys(FollowUpStep, 'id'),
  })
  const calls = await all({
    ...{ what: 'callback', shape: Call, table: 'Callback', columns: keys(Call), ...recorded },
  })
  const stays = await all({
    ...{ what: 'admission', shape: Stay, table: 'Admission', columns: keys(Stay, 'id'), ...recorded },
  })
  const flags = await all({
    ...{ what: 'flag', shape: Opened, table: 'Flag', columns: keys(Opened) },
    ...{ knownAt: 'openedAt', order: ['openedAt', 'rowid'] },
  })

  return patients.rows.map(({ id, enrolledAt, recordedAt }) => ({
    ...{ patientId: id, enrolledAt, recordedAt },
    details: details.of(id),
    drains: drains.of(id),
    plans: plans.of(id),
    reports: reportsFrom(id, { heads, readings, flushes, dressings, symptoms, drainSymptoms }),
    events: events.of(id),
    visits: stepsFrom(visits.of(id), steps.of(id)),
    followUp: followUp.of(id),
    calls: calls.of(id),
    stays: stays.of(id),
    flags: flags.of(id),
    unreadable: unreadable.splice(0),
  }))
}

type Parts = {
  heads: ByPatient<z.infer<typeof ReportHead>>
  readings: ByPatient<z.infer<typeof KnownReading>>
  flushes: ByPatient<z.infer<typeof KnownFlush>>
  dressings: ByPatient<z.infer<typeof KnownDressing>>
  symptoms: ByPatient<z.infer<typeof StoredSymptoms>>
  drainSymptoms: ByPatient<z.infer<typeof KnownDrainSymptoms>>
}

/** A patient's reports with their parts, as a record holds them. */
function reportsFrom(patientId: string, parts: Parts): KnownReport[] {
  const byReport = <T extends { reportId: string }>(rows: T[]) => grouped(rows, (row) => row.reportId)
  const readings = byReport(parts.readings.of(patientId))
  const flushes = byReport(parts.flushes.of(patientId))
  const dressings = byReport(parts.dressings.of(patientId))
  const symptoms = new Map(parts.symptoms.of(patientId).map((row) => [row.reportId, row]))
  const drainSymptoms = grouped(parts.drainSymptoms.of(patientId), (row) => row.symptomsId)
  return parts.heads.of(patientId).map(({ id, receivedAt, supersedesId, movedAt }): KnownReport => {
    const said = symptoms.get(id)
    return {
      ...{ id, receivedAt, supersedes: supersedesId, movedAt },
      readings: readings.get(id) ?? [],
      flushes: flushes.get(id) ?? [],
      dressings: (dressings.get(id) ?? []).map((one) => ({ ...one, changed: one.changed ?? undefined })),
      symptoms: said
        ? { ...said, general: said.general ?? undefined, drains: drainSymptoms.get(said.id) ?? [] }
        : null,
    }
  })
}

const RANK = { requested: 0, booked: 1, done: 2, cancelled: 2 } as const

/** As the steps of a record stand: of one instant's steps, the one that goes further is the later. */
function stepsFrom(visits: z.infer<typeof Visit>[], steps: z.infer<typeof KnownStep>[]): VisitStep[] {
  const byId = new Map(visits.map((visit) => [visit.id, visit]))
  return steps
    .flatMap((step): VisitStep[] => {
      const visit = byId.get(step.visitId)
      return visit ? [{ ...step, drainId: visit.drainId, kind: visit.kind }] : []
    })
    .sort((a, b) =>
      a.recordedAt === b.recordedAt ? RANK[a.state] - RANK[b.state] : a.recordedAt < b.recordedAt ? -1 : 1,
    )
}

/** The patients of a clinic to whom anything can have happened in a period: their ids. */
export async function patientsBetween(
  tx: Tx,
  clinicId: string,
  from: string,
  until: string,
): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>(
    sql`SELECT p."id" FROM "Patient" p WHERE p."clinicId" = ${clinicId} AND p."recordedAt" <= ${until}
          AND (p."followUpEndedAt" IS NULL OR p."followUpEndedAt" >= ${from} OR EXISTS (
            SELECT 1 FROM "Report" r WHERE r."patientId" = p."id" AND r."receivedAt" >= ${from} AND r."receivedAt" <= ${until}))
        ORDER BY p."id"`,
  )
  return rows.map(({ id }) => id)
}

/** When a clinic received its first report; null where it has none. */
export async function firstReportAt(tx: Tx, clinicId: string): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ at: string | null }[]>(
    sql`SELECT MIN(r."receivedAt") AS "at" FROM "Patient" p JOIN "Report" r ON r."patientId" = p."id"
        WHERE p."clinicId" = ${clinicId}`,
  )
  return row?.at ?? null
}

const Named = z.object({
  id: z.string(),
  name: z.string(),
  birthDate: LocalDate,
  recordNumber: z.string(),
})
export type NamedPatient = z.infer<typeof Named>

/** Who some patients of a clinic are, by their ids. */
export async function namesOf(
  tx: Tx,
  clinicId: string,
  patientIds: readonly string[],
): Promise<Map<string, NamedPatient>> {
  const { rows } = await rowsOf(
    tx,
    'patient',
    Named,
    sql`SELECT "id", "name", "birthDate", "recordNumber" FROM "Patient" WHERE "clinicId" = ${clinicId}
        AND "id" IN (SELECT value FROM json_each(${JSON.stringify(patientIds)}))`,
  )
  return new Map(rows.map((row) => [row.id, row]))
}
