import type { PatientRecord, Report } from '../domain/record.ts'
import { type CarePlan, type PlanVersion, planVersionsOf } from './care-plans.ts'
import type { Tx } from './client.ts'
import { drainsOf, type StoredDrain } from './drains.ts'
import { type Patient, patientById } from './patients.ts'
import { drainSymptomsOf, dressingsOf, flushesOf, readingsOf, type Span, symptomsOf } from './report-parts.ts'
import { reportsOf, type StoredReport } from './reports.ts'
import { countedAt, grouped, type Rows, stored, type Unreadable } from './rows.ts'
import { type EventRow, eventRowsOf } from './staff-events.ts'
import { bookedFor, type VisitStep, visitStepsOf } from './visits.ts'

/**
 * How far back a record reaches, in days. Longer than any tube stays in place; what was said before
 * lives on in the flags. So the cost of a report does not grow with the years of follow-up.
 */
export const HORIZON_DAYS = 400

/** A record, with the rows behind it that say more than the rules read. */
export type Composed = {
  patient: Patient
  record: PatientRecord
  drains: StoredDrain[]
  reports: StoredReport[]
  /** The steps of the visits up to the instant, the earliest first. */
  visits: VisitStep[]
  /** All versions of the orders and all that staff recorded, with what was withdrawn, the earliest first. */
  plans: PlanVersion[]
  events: EventRow[]
  unreadable: Unreadable[]
}

/** What a record at an instant reaches back over. */
export const wholeSpan = (patientId: string, now: Date): Span => ({
  patientId,
  until: stored(now),
  from: stored(new Date(now.getTime() - HORIZON_DAYS * 86_400_000)),
})

/**
 * A patient's record as it stood at an instant: what had been received and recorded by then, and of each
 * drain the order in force then. Null if there is no such patient. One query per kind of row.
 * @param from only reports received after it; the rules need all
 */
export async function composeRecord(
  tx: Tx,
  patientId: string,
  now: Date,
  from?: string,
): Promise<Composed | null> {
  const patient = await patientById(tx, patientId)
  if (!patient) return null
  const whole = wholeSpan(patientId, now)
  const { until } = whole
  const span = from === undefined ? whole : { ...whole, from }
  const unreadable: Unreadable[] = []
  const readable = <T>({ rows, unreadable: bad }: Rows<T>): T[] => {
    unreadable.push(...bad)
    return rows
  }

  const versions = readable(await planVersionsOf(tx, patientId, until))
  const plans = new Map(versions.filter(countedAt(until)).map((plan) => [plan.drainId, plan]))
  const kept = readable(await drainsOf(tx, patientId, until))
  const visits = readable(await visitStepsOf(tx, patientId, until))
  const drains = kept.flatMap((drain) => {
    const plan = plans.get(drain.id)
    if (plan) return [{ ...withOrders(drain, plan), ...bookingsOf(drain.id, visits) }]
    unreadable.push({ what: 'drain', id: drain.id, why: 'has no order that can be read' })
    return []
  })
  const known = new Set(drains.map((drain) => drain.id))
  const ofKnown = <T extends { drain: string }>(rows: T[]) => rows.filter((row) => known.has(row.drain))

  const readings = byReport(ofKnown(readable(await readingsOf(tx, span))))
  const flushes = byReport(ofKnown(readable(await flushesOf(tx, span))))
  const dressings = byReport(ofKnown(readable(await dressingsOf(tx, span))))
  const symptoms = new Map(readable(await symptomsOf(tx, span)).map((row) => [row.reportId, row]))
  const drainSymptoms = grouped(ofKnown(readable(await drainSymptomsOf(tx, span))), (row) => row.symptomsId)
  const rows = readable(await reportsOf(tx, span))
  const ids = new Set(rows.map((report) => report.id))

  const reports = rows.map(({ id, receivedAt, supersedesId }): Report => {
    const said = symptoms.get(id)
    return {
      id,
      receivedAt,
      supersedes: supersedesId !== null && ids.has(supersedesId) ? supersedesId : null,
      readings: (readings.get(id) ?? []).map(({ drain, at, volumeMl, appearance, total }) => ({
        drain,
        at,
        volumeMl,
        appearance,
        total,
      })),
      flushes: (flushes.get(id) ?? []).map(({ drain, at, volumeMl, ease }) => ({
        drain,
        at,
        volumeMl,
        ease,
      })),
      dressings: (dressings.get(id) ?? []).map(({ drain, at, found, skin, changed }) => ({
        drain,
        at,
        found,
        skin,
        changed: changed ?? undefined,
      })),
      symptoms: said
        ? {
            at: said.at,
            temperatureC: said.temperatureC,
            chills: said.chills,
            pain: said.pain,
            general: said.general ?? undefined,
            drains: (drainSymptoms.get(said.id) ?? []).map(({ drain, position, leak, draining }) => ({
              drain,
              position,
              leak,
              draining,
            })),
          }
        : null,
    }
  })
  const events = readable(await eventRowsOf(tx, patientId, until))
  const staffEvents = events
    .filter(countedAt(until))
    .filter((event) => event.drainId === null || known.has(event.drainId))
    .map(({ at, drainId, type, code }) => ({ at, drain: drainId, type, code }))

  const { timeZone, enrolledAt, usual } = patient
  return {
    patient,
    record: { timeZone, enrolledAt, usual, drains, reports, staffEvents },
    drains: kept,
    reports: rows,
    visits,
    plans: versions,
    events,
    unreadable,
  }
}

const byReport = <T extends { reportId: string }>(rows: T[]) => grouped(rows, (row) => row.reportId)

/** What stood booked at the instant: a visit that was called off or done by then no longer does. */
export const bookingsOf = (drain: string, visits: readonly VisitStep[]) => ({
  exchangeBookedFor: bookedFor(visits, drain, 'exchange'),
  removalBookedFor: bookedFor(visits, drain, 'removal'),
})

export function withOrders(drain: StoredDrain, plan: CarePlan): PatientRecord['drains'][number] {
  const { ordinal: _order, label: _label, frenchSize: _size, lengthMarkCm: _length, ...fixed } = drain
  const { flushVolumeMl, flushEveryHours } = plan
  const overrides = Object.entries(plan.overrides ?? {}).map(([name, set]) => [name, set.value])
  return {
    ...fixed,
    course: plan.course ?? undefined,
    drainage: plan.drainage ?? undefined,
    bagCapacityMl: plan.bagCapacityMl,
    markMl: plan.markMl,
    plan: {
      logEveryHours: plan.logEveryHours,
      dressingEveryHours: plan.dressingEveryHours,
      flush:
        flushVolumeMl !== null && flushEveryHours !== null
          ? { volumeMl: flushVolumeMl, everyHours: flushEveryHours }
          : null,
      exchangeEveryDays: plan.exchangeEveryDays,
      ...(overrides.length ? { overrides: Object.fromEntries(overrides) } : {}),
    },
  }
}
