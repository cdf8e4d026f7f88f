import { recordAccess } from '../access/record.ts'
import { isCapped, isRemoved } from '../assessment/tube.ts'
import { now as clock } from '../clock.ts'
import { type HandOut, type HandOutDrain, HandOutPrint, type HandOutVisit } from '../domain/hand-out.ts'
import { usualCourse } from '../domain/kinds.ts'
import type { StaffMember } from '../domain/staff.ts'
import { type CarePlan, plansOf } from '../store/care-plans.ts'
import { clinicById } from '../store/clinics.ts'
import { snapshot, type Tx, write } from '../store/index.ts'
import { type Composed, composeRecord } from '../store/record.ts'
import { stored } from '../store/rows.ts'
import { isOpen, latestSteps, type VisitStep, visitStepsOf } from '../store/visits.ts'
import { adviceLimits } from './advice-limits.ts'
import { parse } from './parse.ts'
import { noPatient, patientOf } from './patient-of.ts'

/**
 * What the printed page for a patient says, as of now. Drains that were removed are left out. The view stands in
 * the access record.
 * @throws Refusal not-found
 */
export async function readHandOut(
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<HandOut> {
  const handOut = await compose(staff, patientId, now)
  await note(staff, patientId, 'view-patient', 'opened the hand-out', now)
  return handOut
}

const compose = (staff: StaffMember, patientId: string, now: Date): Promise<HandOut> =>
  snapshot(async (tx) => {
    await patientOf(tx, staff.clinicId, patientId)
    const composed = await composeRecord(tx, patientId, now)
    const clinic = await clinicById(tx, staff.clinicId)
    if (!composed || !clinic) throw noPatient()
    const { name, phone, afterHoursPhone, timeZone, hours, demo } = clinic
    const { patient } = composed
    const drains = await drainsOf(tx, composed, now)
    const inPlace = drains.map(({ id }) => id)
    return {
      asOf: stored(now),
      clinic: { name, phone, afterHoursPhone, timeZone, hours, demo },
      patient: {
        id: patientId,
        name: patient.name,
        birthDate: patient.birthDate,
        timeZone: patient.timeZone,
        language: patient.profile?.checkInLanguage ?? 'en',
      },
      feverC: (await adviceLimits(tx, composed, inPlace, now)).feverC,
      drains,
    }
  })

async function drainsOf(tx: Tx, { patient, record, drains }: Composed, now: Date): Promise<HandOutDrain[]> {
  const plans = new Map((await plansOf(tx, patient.id, stored(now))).rows.map((plan) => [plan.drainId, plan]))
  const visits = latestSteps((await visitStepsOf(tx, patient.id, stored(now))).rows)
  return record.drains.flatMap((drain): HandOutDrain[] => {
    const events = record.staffEvents.filter(
      (event) => event.drain === drain.id && Date.parse(event.at) <= now.getTime(),
    )
    const kept = drains.find(({ id }) => id === drain.id)
    const plan = plans.get(drain.id)
    if (!kept || !plan || isRemoved(events)) return []
    return [
      {
        id: drain.id,
        label: kept.label,
        kind: drain.kind,
        side: drain.side ?? null,
        course: drain.course ?? usualCourse[drain.kind],
        capped: isCapped(events, drain.cappedAt, now.getTime()),
        vessel: plan.vessel,
        lengthMarkCm: kept.lengthMarkCm,
        logEveryHours: plan.logEveryHours,
        dressingEveryHours: plan.dressingEveryHours,
        dressingType: plan.dressingType || null,
        flush: flushOf(plan),
        exchangeEveryDays: plan.exchangeEveryDays,
        removalPlan: plan.removalPlan || null,
        visits: visits.filter(({ drainId }) => drainId === drain.id).flatMap((visit) => ahead(visit, now)),
      },
    ]
  })
}

const flushOf = ({ flushVolumeMl, flushEveryHours, flushAt }: CarePlan): HandOutDrain['flush'] =>
  flushVolumeMl === null || flushEveryHours === null
    ? null
    : { volumeMl: flushVolumeMl, everyHours: flushEveryHours, at: (flushAt ?? []).toSorted() }

/** What is asked for or booked. A booking that is past without being done tells the patient nothing. */
const ahead = ({ kind, state, bookedFor }: VisitStep, now: Date): HandOutVisit[] =>
  !isOpen({ state }) || (bookedFor !== null && Date.parse(bookedFor) < now.getTime())
    ? []
    : [{ kind, state, bookedFor }]

/**
 * Notes that the page is printed: a print leaves the house.
 * @throws Refusal invalid-input, not-found
 */
export async function noteHandOutPrinted(
  staff: StaffMember,
  patientId: string,
  body: unknown,
  now: Date = clock(),
): Promise<{ printed: true }> {
  const { language, link } = parse('print', HandOutPrint, body)
  const what = `printed the hand-out (${language}), ${link ? 'with a link' : 'without a link'}`
  await note(staff, patientId, 'print-hand-out', what, now)
  return { printed: true }
}

const note = (staff: StaffMember, patientId: string, action: string, what: string, now: Date) =>
  write(async (tx) => {
    await patientOf(tx, staff.clinicId, patientId)
    await recordAccess(tx, {
      clinicId: staff.clinicId,
      at: stored(now),
      staffId: staff.id,
      actor: staff.name,
      action,
      patientId,
      what,
    })
  })
