import { now as clock } from '../../clock.ts'
import { findingLabels } from '../../domain/labels.ts'
import {
  type DueInquiry,
  INQUIRY_DAYS,
  type OutcomePatient,
  type OutcomesPage,
  type ShownEvent,
} from '../../domain/outcomes-page.ts'
import { InquiryAbout } from '../../domain/outside-event.ts'
import { Refusal } from '../../domain/problem.ts'
import type { StaffMember } from '../../domain/staff.ts'
import { clinicById } from '../../store/clinics.ts'
import { snapshot, type Tx, write } from '../../store/index.ts'
import { answerCounts, dueInquiries } from '../../store/inquiries.ts'
import {
  drainsForEvents,
  type EventOfPerson,
  flagsOfPatients,
  latestOutsideEvents,
  outsideEventsOf,
} from '../../store/outside-events.ts'
import { grouped, stored } from '../../store/rows.ts'
import { staffNamesOf } from '../../store/staff-names.ts'
import { FOUND_WITHIN_HOURS, matchEvents } from '../figures/event-match.ts'
import { note, patientOf } from './event-within.ts'

const DAY_MS = 86_400_000
/** Most of those due that are shown, and most events. */
const DUE = 100
const EVENTS = 60

/** Of whom it is due to ask what became of them, and what was told last. The view stands in the access record. */
export async function readOutcomes(staff: StaffMember, now: Date = clock()): Promise<OutcomesPage> {
  const page = await snapshot((tx) => compose(tx, staff, now))
  const seen = new Set([...page.due, ...page.events].map(({ patientId }) => patientId))
  await write((tx) =>
    note(tx, staff, null, stored(now), `opened what became of the patients: ${[...seen].join(' ')}`),
  )
  return page
}

const enrolledBefore = (now: Date) => stored(new Date(now.getTime() - INQUIRY_DAYS * DAY_MS))

async function compose(tx: Tx, { clinicId }: StaffMember, now: Date): Promise<OutcomesPage> {
  const clinic = await clinicById(tx, clinicId)
  if (!clinic) throw new Refusal('not-found', 'There is no such clinic.')
  const { id, name, timeZone, demo } = clinic
  const { rows: all } = await dueInquiries(tx, clinicId, enrolledBefore(now), INQUIRY_DAYS)
  const due = all.slice(0, DUE)
  const drains = await drainsBy(
    tx,
    due.map(({ patientId }) => patientId),
  )
  return {
    asOf: stored(now),
    clinic: { id, name, timeZone, demo },
    due: due.map((one): DueInquiry => ({ ...one, drains: drains.get(one.patientId) ?? [] })),
    dueInAll: all.length,
    answered: (await answerCounts(tx, clinicId)).rows,
    events: await shownEvents(tx, clinicId),
  }
}

async function drainsBy(tx: Tx, patientIds: readonly string[]) {
  const { rows } = await drainsForEvents(tx, patientIds)
  const plain = new Map<string, DueInquiry['drains']>()
  for (const [patientId, own] of grouped(rows, (drain) => drain.patientId))
    plain.set(
      patientId,
      own.map(({ patientId: _, ...drain }) => drain),
    )
  return plain
}

/** The latest events, each with the flag that found it. */
async function shownEvents(tx: Tx, clinicId: string): Promise<ShownEvent[]> {
  const { rows } = await latestOutsideEvents(tx, clinicId, EVENTS)
  if (rows.length === 0) return []
  const earliest = Math.min(...rows.map(({ event }) => Date.parse(event.at)))
  const from = stored(new Date(earliest - FOUND_WITHIN_HOURS * 3_600_000))
  const ids = [...new Set(rows.map(({ event }) => event.patientId))]
  const { rows: flags } = await flagsOfPatients(tx, ids, from)
  const toMatch = rows.map(({ event, heardAt }) => ({ ...event, heardAt }))
  const matches = new Map(matchEvents(toMatch, flags).map((match) => [match.event, match]))
  const codes = new Map(flags.map((flag) => [flag.id, flag.code]))
  const names = await staffNamesOf(tx, clinicId)
  return rows.map(({ event, heardAt: _, label, ...person }: EventOfPerson): ShownEvent => {
    const match = matches.get(event.id) ?? null
    const code = match?.flagId ? codes.get(match.flagId) : undefined
    return {
      ...person,
      patientId: event.patientId,
      event: {
        ...event,
        by: names.get(event.by) ?? event.by,
        withdrawnBy: event.withdrawnBy === null ? null : (names.get(event.withdrawnBy) ?? event.withdrawnBy),
      },
      drain: label,
      match,
      found: code ? findingLabels[code] : null,
    }
  })
}

/**
 * What the form for one patient needs, due or not. The view stands in the access record.
 * @throws Refusal not-found
 */
export async function readOutcomePatient(
  staff: StaffMember,
  patientId: string,
  now: Date = clock(),
): Promise<OutcomePatient> {
  const { clinicId } = staff
  const found = await snapshot(async (tx): Promise<OutcomePatient> => {
    const patient = await patientOf(tx, clinicId, patientId)
    const { name, birthDate, recordNumber, timeZone, enrolledAt } = patient
    const { rows: due } = await dueInquiries(tx, clinicId, enrolledBefore(now), INQUIRY_DAYS, patientId)
    return {
      patientId,
      name,
      birthDate,
      recordNumber,
      timeZone,
      enrolledAt,
      inFollowUp: patient.followUpEndedAt === null,
      drains: (await drainsBy(tx, [patientId])).get(patientId) ?? [],
      due: InquiryAbout.options.filter((about) => due.some((one) => one.about === about)),
      events: (await outsideEventsOf(tx, patientId)).rows,
    }
  })
  await write((tx) => note(tx, staff, patientId, stored(now), 'opened what became of the patient'))
  return found
}
